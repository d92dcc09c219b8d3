package review

import (
	"slices"

	"steeltally/inventory"
	"steeltally/inventory/wear/stats"
	"steeltally/inventory/wear/trend"
)

// Incidence is which share of runners had left use after so many sessions (or days,
// where there is no schedule), by reason.
type Incidence struct {
	Unit    string // sessions or days
	Runners int
	Steps   []stats.IncidenceStep // low steel, breakage, other
}

// incidenceOf is when skaters' runners left use, and why.
func incidenceOf(lives []*Life, players []*Player) (Incidence, error) {
	keepers := map[inventory.Number]bool{}
	for _, p := range players {
		keepers[p.Number] = p.Goalkeeper
	}
	length := func(l *Life) *int { return l.Times }
	in := Incidence{Unit: "sessions"}
	if !slices.ContainsFunc(lives, func(l *Life) bool { return l.Times != nil }) {
		in.Unit, length = "days", func(l *Life) *int { return l.Days }
	}
	var spans []trend.LifeSpan
	for _, l := range lives {
		if n := length(l); l.Steel() && !keepers[l.Player] && n != nil && *n > 0 {
			spans = append(spans, trend.LifeSpan{Length: float64(*n), Reason: l.reason()})
		}
	}
	if in.Runners = len(spans); in.Runners == 0 {
		return in, nil
	}
	var err error
	in.Steps, err = trend.ByReason(spans)
	return in, err
}

// reason is why a runner left use.
func (l *Life) reason() trend.Reason {
	switch {
	case l.InUse:
		return trend.StillInUse
	case l.Reason.Reason() == inventory.ReasonLow:
		return trend.LowSteel
	case l.BrokenOff():
		return trend.Breakage
	}
	return trend.OtherReason
}
