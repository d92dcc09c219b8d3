package stats

import (
	"errors"
	"fmt"
	"math"
)

// Stratum is one player's values with the times at which they were taken.
type Stratum struct{ Times, Values []float64 }

// MannKendallResult tells whether values rise or fall with time.
type MannKendallResult struct {
	S        int     // pairs that rise less pairs that fall, within the strata
	Pairs    int     // pairs of different times within the strata
	P        float64 // two-sided, by point probability
	Rise     float64 // chance of an S as high
	Fall     float64 // chance of an S as low
	Variance float64 // of S, were there no trend
}

const (
	jointTieStates   = 200_000 // remaining multisets followed where times and values tie
	mannKendallPairs = 10_000  // about 140 values in one stratum; a second or two
)

// MannKendall tests for a trend within strata, never between them, exactly: by
// numbers of inversions where times or values are all different, by the
// arrangements of tied values over tied times where both tie, up to 200,000
// states in a stratum, else ErrTooLarge. Sources: M. G. Kendall, Rank
// Correlation Methods, 1948; R. M. Hirsch, J. R. Slack, Water Resources Research
// 20 (1984) 727 (strata).
func MannKendall(strata []Stratum) (MannKendallResult, error) {
	var r MannKendallResult
	for i, s := range strata {
		if err := checkPoints(s.Times, s.Values, 0); err != nil {
			return r, fmt.Errorf("stratum %d: %w", i+1, err)
		}
		r.S += kendallS(s.Times, s.Values)
		r.Pairs += untiedPairs(groupSizes(s.Times))
	}
	total, variance, err := kendallTotal(strata)
	if r.Variance = variance; err != nil {
		return r, err
	}
	if r.Pairs == 0 || r.Variance == 0 {
		return r, errors.New("no two values of one player can be compared: wait for more")
	}
	r.P, r.Rise, r.Fall = total.compare(r.S)
	return r, nil
}

// kendallTotal is the distribution of S summed over strata, were there no trend,
// and its variance, which is known also where the distribution is ErrTooLarge.
func kendallTotal(strata []Stratum) (total trendChances, variance float64, err error) {
	total.chance = []float64{1}
	pairs := 0
	for i, s := range strata {
		times, values := groupSizes(s.Times), groupSizes(s.Values)
		variance += kendallVariance(times, values)
		if pairs += untiedPairs(times); pairs > mannKendallPairs {
			err = fmt.Errorf("%d pairs: %w: take a shorter season", pairs, ErrTooLarge)
		}
		if err != nil {
			continue
		}
		var part trendChances
		if part, err = kendallChances(times, values); err != nil {
			err = fmt.Errorf("stratum %d: %w", i+1, err)
			continue
		}
		total = trendChances{low: total.low + part.low, chance: convolve(total.chance, part.chance)}
	}
	return total, variance, err
}

// trendChances gives the chance of S = low, low+1, …
type trendChances struct {
	low    int
	chance []float64
}

// atLeast is the chance of S or more.
func (c trendChances) atLeast(s int) float64 {
	sum := 0.0
	for i := max(0, s-c.low); i < len(c.chance); i++ {
		sum += c.chance[i]
	}
	return sum
}

func (c trendChances) compare(s int) (p, rise, fall float64) {
	observed := s - c.low
	for _, q := range c.chance[:observed+1] {
		fall += q
	}
	p = pointProbabilityTail(len(c.chance), observed, func(i int) float64 { return c.chance[i] })
	return p, math.Min(1, c.atLeast(s)), math.Min(1, fall)
}

// kendallChances is the distribution of S for group sizes of equal times and
// equal values.
func kendallChances(times, values []int) (trendChances, error) {
	switch {
	case allOnes(times):
		return spreadInversions(values), nil
	case allOnes(values):
		return spreadInversions(times), nil
	}
	return jointTieChances(times, values)
}

// spreadInversions turns inversions into S = untied pairs − 2·inversions.
func spreadInversions(sizes []int) trendChances {
	inversions := inversionChances(sizes)
	top := len(inversions) - 1
	chance := make([]float64, 2*top+1)
	for i, p := range inversions {
		chance[2*(top-i)] = p
	}
	return trendChances{low: -top, chance: chance}
}

func allOnes(sizes []int) bool {
	for _, s := range sizes {
		if s != 1 {
			return false
		}
	}
	return true
}

// untiedPairs is the number of pairs that lie in different groups.
func untiedPairs(sizes []int) int {
	n, tied := 0, 0
	for _, s := range sizes {
		n += s
		tied += s * (s - 1) / 2
	}
	return n*(n-1)/2 - tied
}
