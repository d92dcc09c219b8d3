// Package trend says whether steel differs: left from right, this season's
// removal heights from last month's, one lot's breakages from the others'.
//
// Many looks are the danger: with twenty players looked at every month, chance
// alone shows somebody as "significant" in nearly every season. So every
// comparison gives its interval, always, but the word "differs" only after a
// Plan has allowed for all comparisons and all looks of the season. Otherwise
// the answer is "can't say", with the difference that would have shown.
package trend

import (
	"fmt"

	"steeltally/geometry"
	"steeltally/inventory/wear/stats"
)

// Removed is one set of steel taken out of use: the day of the season and its
// mean height then.
type Removed struct {
	Day    float64
	Height geometry.Millimetre
}

// RemovalTrend is how the height at removal moves over a season.
type RemovalTrend struct {
	stats.MannKendallResult
	PerMonth stats.RobustLine // its slope in mm per 30 days
}

const daysPerMonth = 30

// RemovalHeights tests whether steel is taken out lower, or higher, as the
// season goes on: each player's sets are compared among themselves only, one
// list a player. Exact. A set is one value: its two sides left together.
func RemovalHeights(players [][]Removed, level float64) (RemovalTrend, error) {
	strata := make([]stats.Stratum, len(players))
	for i, sets := range players {
		for _, r := range sets {
			strata[i].Times = append(strata[i].Times, r.Day/daysPerMonth)
			strata[i].Values = append(strata[i].Values, float64(r.Height))
		}
	}
	test, err := stats.MannKendall(strata)
	if err != nil {
		return RemovalTrend{}, err
	}
	slope, err := stats.StratifiedTheilSen(strata, level)
	return RemovalTrend{MannKendallResult: test, PerMonth: slope}, err
}

// Reason is why a runner left use. The zero value is one that did not: it is
// still in use, was lost, or the season ended.
type Reason int

// Reasons for removal.
const (
	StillInUse Reason = iota
	LowSteel
	Breakage
	OtherReason
)

const reasons = int(OtherReason)

// LifeSpan is one runner's life, in days, sessions or grinds, and its end.
type LifeSpan struct {
	Length float64
	Reason Reason
}

// ByReason gives the share of runners that had left by each time for low steel,
// for breakage and for other reasons: only those still in use, lost, or at the
// season's end are cut off.
func ByReason(lives []LifeSpan) ([]stats.IncidenceStep, error) {
	ends := make([]stats.End, len(lives))
	for i, l := range lives {
		if l.Reason < StillInUse || l.Reason > OtherReason {
			return nil, fmt.Errorf("runner %d of %d: reason %d is not known", i+1, len(lives), l.Reason)
		}
		ends[i] = stats.End{Time: l.Length, Cause: int(l.Reason)}
	}
	return stats.AalenJohansen(ends, reasons)
}
