package deeds

import (
	"steeltally/geometry"
	"steeltally/inventory"
)

// SetRules says when a spare pair counts as ready, for the club or for one player.
type SetRules inventory.RulesNoted

const (
	mostDays                           = 400
	mostSets                           = 10
	mostFixMinutes                     = 600
	mostDifference geometry.Millimetre = 5
	rulesHint                          = "such as --height-within 0.5mm, --tried-within 30, --looked-within 30, --ready-sets 2"
)

// Decide records what was set; the rest stays.
func (d SetRules) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if d.Player != 0 {
		if _, err := inventory.PlayerOf(v, d.Player); err != nil {
			return out, err
		}
	}
	if err := d.check(); err != nil {
		return out, err
	}
	body := inventory.RulesNoted(d)
	out.record(m.Happened, &body)
	return out, nil
}

func (d SetRules) check() error {
	if d.HeightWithin == nil && d.TriedDays == nil && d.LookedDays == nil && d.Sets == nil && len(d.Minutes) == 0 {
		return inventory.RefuseValue(rulesHint, "no rule was given")
	}
	if d.HeightWithin != nil && (*d.HeightWithin <= 0 || *d.HeightWithin > mostDifference) {
		return inventory.RefuseValue("half a millimetre is usual", "a height difference of %s can't be right", *d.HeightWithin)
	}
	for _, limit := range []struct {
		what  string
		value *int
		most  int
	}{{"days since tried", d.TriedDays, mostDays}, {"days since looked at", d.LookedDays, mostDays}, {"ready sets", d.Sets, mostSets}} {
		if limit.value != nil && (*limit.value < 0 || *limit.value > limit.most) {
			return inventory.RefuseValue("", "%s: %d; 0 to %d are possible", limit.what, *limit.value, limit.most)
		}
	}
	for _, time := range d.Minutes {
		if time.Minutes < 0 || time.Minutes > mostFixMinutes {
			return inventory.RefuseValue("", "%d minutes for %s: 0 to %d are possible", time.Minutes, time.Fix, mostFixMinutes)
		}
	}
	return nil
}
