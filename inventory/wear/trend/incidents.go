package trend

import (
	"errors"
	"fmt"

	"steeltally/inventory/wear/stats"
)

// perThousand is the number of sessions that rates are told for.
const perThousand = 1000

// Group is one model, lot, zone or side: its incidents, and the sessions in use
// of all its pieces, unbroken ones included.
type Group struct {
	Incidents int
	Sessions  float64
}

// Rate is a group's incidents per 1,000 sessions in use.
type Rate struct {
	PerThousand float64
	Interval    stats.Interval // exact
}

// RateOf is a group's rate with an exact interval of the given confidence.
func RateOf(g Group, level float64) (Rate, error) {
	if !(g.Sessions > 0) {
		return Rate{}, fmt.Errorf("%d incidents in %v sessions: sessions in use must be known", g.Incidents, g.Sessions)
	}
	i, err := stats.PoissonInterval(g.Incidents, level)
	if err != nil {
		return Rate{}, err
	}
	unit := perThousand / g.Sessions
	return Rate{
		PerThousand: float64(g.Incidents) * unit,
		Interval:    stats.Interval{Low: i.Low * unit, High: i.High * unit},
	}, nil
}

// Incidents compares the rates of several groups.
type Incidents struct {
	Rates []Rate
	P     float64 // that all groups share one rate: exact
}

// CompareIncidents compares two or more groups exactly: two by the binomial,
// more by the multinomial of the incidents over the sessions. Too many for an
// exact answer is stats.ErrTooLarge, with the rates given.
func CompareIncidents(groups []Group, level float64) (Incidents, error) {
	if len(groups) < 2 {
		return Incidents{}, errors.New("one group cannot be compared: give two or more")
	}
	result := Incidents{P: 1}
	var counts []int
	var sessions []float64
	for i, g := range groups {
		r, err := RateOf(g, level)
		if err != nil {
			return Incidents{}, fmt.Errorf("group %d: %w", i+1, err)
		}
		result.Rates = append(result.Rates, r)
		counts, sessions = append(counts, g.Incidents), append(sessions, g.Sessions)
	}
	p, err := stats.MultinomialTest(counts, sessions)
	if err != nil {
		return result, err
	}
	result.P = p
	return result, nil
}

// Against is one group compared with all others together.
type Against struct {
	stats.RateRatio
	Detectable float64 // a ratio below this would not show; +Inf: none would
}

// CompareWithRest compares one group's rate with that of the others together,
// exactly. Level is that of the interval, alpha that at which a difference would
// be called, after all allowances.
func CompareWithRest(one, rest Group, level, alpha float64) (Against, error) {
	ratio, err := stats.CompareRates(one.Incidents, one.Sessions, rest.Incidents, rest.Sessions, level)
	if err != nil {
		return Against{}, err
	}
	share := one.Sessions / (one.Sessions + rest.Sessions)
	return Against{RateRatio: ratio, Detectable: detectableRatio(one.Incidents+rest.Incidents, share, alpha)}, nil
}
