package wear

import (
	"errors"
	"fmt"
)

// Day is the number of passes that a player's steel will have had by the end of
// a day, counted from now.
type Day struct{ Passes, Variance float64 }

// ErrNoSchedule says that there are no days to look along: passes only.
var ErrNoSchedule = errors.New("no schedule: the forecast stands in passes only")

// Schedule turns sessions to come into passes. Sessions is by day and kind, the
// number of sessions of that kind on that day; kinds has what each costs.
func Schedule(sessions [][]int, kinds []SessionPasses) ([]Day, error) {
	if len(sessions) == 0 {
		return nil, ErrNoSchedule
	}
	counts := make([]float64, len(kinds))
	days := make([]Day, len(sessions))
	for d, today := range sessions {
		if len(today) != len(kinds) {
			return nil, fmt.Errorf("day %d has %d kinds of sessions, known are %d", d+1, len(today), len(kinds))
		}
		for k, n := range today {
			if n < 0 {
				return nil, fmt.Errorf("day %d has %d sessions: a count cannot be negative", d+1, n)
			}
			counts[k] += float64(n)
			days[d].Passes += counts[k] * kinds[k].Mean
			days[d].Variance += counts[k]*kinds[k].Variance + counts[k]*counts[k]*kinds[k].MeanVariance
		}
	}
	return days, nil
}

// PlannedPasses is a schedule whose passes are set: so many on each day.
func PlannedPasses(passes []float64) ([]Day, error) {
	if len(passes) == 0 {
		return nil, ErrNoSchedule
	}
	days := make([]Day, len(passes))
	sum := 0.0
	for i, p := range passes {
		if !finite(p) || p < 0 {
			return nil, fmt.Errorf("day %d has %v passes planned: they cannot be negative", i+1, p)
		}
		sum += p
		days[i].Passes = sum
	}
	return days, nil
}

// DueByDay is the chance that the runner is due by the end of a day.
func (f Forecast) DueByDay(d Day) float64 { return f.dueBy(d.Passes, d.Variance) }

// DueByDay is as for a runner.
func (p PairForecast) DueByDay(d Day) float64 {
	return max(p.Left.DueByDay(d), p.Right.DueByDay(d))
}
