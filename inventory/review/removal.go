package review

import (
	"errors"
	"fmt"
	"math"
	"time"

	"steeltally/geometry"
	"steeltally/inventory/wear/stats"
	"steeltally/inventory/wear/trend"
)

// removalTrend tells whether steel is taken off lower, or higher, as time goes on. Each
// player's sets are compared among themselves only.
func removalTrend(players []*Player, from, until time.Time) (Finding, bool, error) {
	strata := make([][]trend.Removed, len(players))
	count, first := 0, firstOff(players)
	for i, p := range players {
		for _, s := range p.Sets {
			height, ok := s.removalHeight()
			if !ok || s.Out.Unknown() || s.Out.After(until) || s.Out.Start.Before(from) {
				continue
			}
			strata[i] = append(strata[i], trend.Removed{Day: s.Out.Start.Sub(first).Hours() / 24, Height: height})
			count++
		}
	}
	if !anyTwo(strata) {
		return Finding{}, false, nil
	}
	moved, err := trend.RemovalHeights(strata, level)
	if err != nil && !errors.Is(err, stats.ErrTooLarge) {
		return Finding{}, false, fmt.Errorf("heights at removal: %w", err)
	}
	f := Finding{
		Kind: "removal-height", About: "the club", N: count, Verdict: CantSay, Unit: "mm a month",
		Middle: moved.PerMonth.Slope, Low: moved.PerMonth.SlopeInterval.Low, High: moved.PerMonth.SlopeInterval.High,
	}
	if err == nil && moved.P <= trend.UsualPlan().LevelAtLook() {
		f.Verdict = Differs
	}
	f.say()
	return f, true, nil
}

// firstOff is when the first set came off.
func firstOff(players []*Player) time.Time {
	first := forever()
	for _, p := range players {
		for _, s := range p.Sets {
			if !s.Out.Unknown() && s.Out.Start.Before(first) {
				first = s.Out.Start
			}
		}
	}
	return first
}

// anyTwo tells whether two different heights of one player on different days are there.
func anyTwo(players [][]trend.Removed) bool {
	for _, sets := range players {
		for i, s := range sets {
			for _, earlier := range sets[:i] {
				if s.Day != earlier.Day && s.Height != earlier.Height {
					return true
				}
			}
		}
	}
	return false
}

// removalHeight is the lower of the two sides of a set that came off because it was low.
func (s *WornSet) removalHeight() (geometry.Millimetre, bool) {
	lowest := geometry.Millimetre(math.Inf(1))
	for _, life := range s.lives() {
		if life.BrokenOff() {
			return 0, false
		}
		if life.Final != nil {
			lowest = min(lowest, *life.Final)
		}
	}
	return lowest, !math.IsInf(float64(lowest), 1)
}

// say puts a trend in words; steel that is taken off lower comes first to mind.
func (f *Finding) say() {
	f.Words = fmt.Sprintf("Over %d sets, heights at removal moved by %+.2f mm a month (%+.2f to %+.2f)", f.N, f.Middle, f.Low, f.High)
	if math.IsInf(f.Low, -1) || math.IsInf(f.High, 1) {
		f.Words = fmt.Sprintf("Whether steel is taken off lower as the season goes on, over %d sets", f.N)
	}
	f.differs = "steel is taken off lower and lower"
	if f.Middle > 0 {
		f.differs = "steel is taken off higher and higher"
	}
}
