package trend

import (
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
