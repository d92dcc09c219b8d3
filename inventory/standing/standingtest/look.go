// Package standingtest looks at records for tests.
package standingtest

import (
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
	"steeltally/inventory/wear"
)

// Look is a record at an instant, with what can be learnt from all of the club's steel.
// Where even that can't be done it panics: each player of whom nothing can be told is
// left out, so that it always can.
func Look(v inventory.View, at time.Time) *standing.Now {
	var members []*standing.Member
	var ungathered []inventory.Unworked
	for _, n := range standing.Whom(inventory.RosterOf(v).Members) {
		var m *standing.Member
		err := inventory.Guard(func() (err error) {
			m, err = standing.Gather(v, n, at)
			return err
		})
		if err != nil {
			ungathered = append(ungathered, inventory.Unworked{About: n, Cause: err})
			continue
		}
		members = append(members, m)
	}
	learnt, err := standing.Learn(members, at, wear.Defaults(), ungathered...)
	if err != nil {
		panic(err)
	}
	return standing.NewNow(v, at, learnt)
}
