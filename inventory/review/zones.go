package review

import (
	"errors"
	"fmt"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/wear/stats"
	"steeltally/inventory/wear/trend"
)

// zoneFinding tells where along the skate it breaks. Zones share the sessions, so they
// are compared by their counts alone.
func zoneFinding(lives []*Life, what string, until time.Time) ([]Finding, error) {
	counts := map[inventory.Zone]int{}
	sessions := 0.0
	for _, l := range lives {
		sessions += float64(l.timesUntil(until))
		for _, damage := range l.Damages {
			zone := damage.Value.Zone
			if damage.Value.Unsafe && zone != "" && zone != inventory.ZoneUnknown && !damage.When.After(until) {
				counts[zone]++
			}
		}
	}
	var zones []inventory.Zone
	for _, zone := range inventory.Zones() {
		if counts[zone] > 0 {
			zones = append(zones, zone)
		}
	}
	if len(zones) < 2 {
		return nil, nil
	}
	f := Finding{Kind: "zone", About: what + "s", Verdict: CantSay, Unit: "incidents"}
	var groups []trend.Group
	words := ""
	for _, zone := range zones {
		groups = append(groups, trend.Group{Incidents: counts[zone], Sessions: sessions})
		words += fmt.Sprintf(", %s %d", zone, counts[zone])
		f.N += counts[zone]
		f.Middle = max(f.Middle, float64(counts[zone]))
	}
	compared, err := trend.CompareIncidents(groups, level)
	if err != nil && !errors.Is(err, stats.ErrTooLarge) {
		return nil, err
	}
	if err == nil && compared.P <= trend.UsualPlan().LevelAtLook() {
		f.Verdict = Differs
	}
	f.Words = fmt.Sprintf("%ss crack, break or bend at: %s", what, words[2:])
	f.differs = "some places take more than others"
	return []Finding{f}, nil
}
