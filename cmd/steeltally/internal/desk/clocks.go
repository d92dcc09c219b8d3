package desk

import (
	"slices"
	"time"

	"steeltally/inventory"
)

// Clock is a player who waits to get back on the ice.
type Clock struct {
	Player inventory.Number `json:"player"`
	Who    string           `json:"who"` // as he is called where room is short
	Pair   inventory.Number `json:"pair"`
	Side   inventory.Side   `json:"side"`
	Since  time.Time        `json:"since"`
	Event  inventory.Key    `json:"event"`
}

// Same tells whether two are of one emergency.
func (c Clock) Same(other Clock) bool { return c.Event == other.Event }

// Clocks lists the emergencies of this game that nobody said the end of, the latest first.
func (d *Desk) Clocks() ([]Clock, error) {
	var clocks []Clock
	err := d.ask(func(v inventory.View, at time.Time) error {
		for _, member := range inventory.RosterOf(v).Members {
			if member.GoneAt(at) {
				continue
			}
			player, err := inventory.PlayerOf(v, member.Player)
			if err != nil {
				return err
			}
			for _, crisis := range player.OpenCrises(at) {
				if since := crisis.When.Start; crisis.Value.Done == nil && at.Sub(since) < inventory.OneEmergency {
					clocks = append(clocks, Clock{player.Number, called(player, at), crisis.Value.Pair, crisis.Value.Side, since, crisis.Event})
				}
			}
		}
		return nil
	})
	slices.SortStableFunc(clocks, func(a, b Clock) int { return b.Since.Compare(a.Since) })
	return clocks, err
}
