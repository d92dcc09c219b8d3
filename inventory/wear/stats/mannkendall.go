package stats

import (
	"errors"
	"fmt"
	"math"
	"slices"
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

const trendSums = 200_000 // different sums of scores that are followed

// TrendResult is the exact test of whether a rate rises or falls with a score.
type TrendResult struct {
	Rising, Falling float64 // one-sided
	TwoSided        float64 // by point probability
}

// TrendTest tests counts over exposures in bands against a score of each band
// (its middle height, say): given their total, each incident falls into a band
// with the chance of its exposure, and the sum of scores is the evidence. Exact;
// ErrTooLarge where uneven scores make more than 200,000 different sums. Source:
// D. R. Cox, E. J. Snell, Analysis of Binary Data, 1989, §2.3 (conditional trend).
func TrendTest(counts []int, exposures, scores []float64) (TrendResult, error) {
	if err := errors.Join(checkPaired("scores", len(counts), len(scores)), checkFinite("score", scores...)); err != nil {
		return TrendResult{}, err
	}
	chances, total, err := multinomialChances(counts, exposures)
	if err != nil {
		return TrendResult{}, err
	}
	if slices.Min(scores) == slices.Max(scores) {
		return TrendResult{}, errors.New("all bands have one score: there is no order to follow")
	}
	observed := 0.0
	for i, n := range counts {
		observed += float64(n) * scores[i]
	}
	sums, err := scoreSums(chances, scores, total)
	if err != nil {
		return TrendResult{}, err
	}
	return sums.compare(observed), nil
}

// chanceSums is a distribution over sums, in order.
type chanceSums struct{ sum, chance []float64 }

// scoreSums adds up the scores of n incidents, one after the other.
func scoreSums(chances, scores []float64, n int) (chanceSums, error) {
	width := slices.Max(scores) - slices.Min(scores)
	grain := 1e-9 * width
	s := chanceSums{sum: []float64{0}, chance: []float64{1}}
	for range n {
		var next chanceSums
		for i := range s.sum {
			for band := range scores {
				next.sum = append(next.sum, s.sum[i]+scores[band])
				next.chance = append(next.chance, s.chance[i]*chances[band])
			}
		}
		if s = next.merged(grain); len(s.sum) > trendSums {
			return s, fmt.Errorf("%d incidents with uneven scores: %w: use whole scores", n, ErrTooLarge)
		}
	}
	return s, nil
}

// merged puts equal sums together; rounding parts them by less than the grain.
func (s chanceSums) merged(grain float64) chanceSums {
	order := make([]int, len(s.sum))
	for i := range order {
		order[i] = i
	}
	slices.SortFunc(order, func(a, b int) int { return sign(s.sum[a] - s.sum[b]) })
	var m chanceSums
	for _, i := range order {
		last := len(m.sum) - 1
		if last >= 0 && s.sum[i]-m.sum[last] <= grain {
			m.chance[last] += s.chance[i]
			continue
		}
		m.sum, m.chance = append(m.sum, s.sum[i]), append(m.chance, s.chance[i])
	}
	return m
}

func (s chanceSums) compare(observed float64) TrendResult {
	nearest := 0
	for i := range s.sum {
		if math.Abs(s.sum[i]-observed) < math.Abs(s.sum[nearest]-observed) {
			nearest = i
		}
	}
	var r TrendResult
	for i, p := range s.chance {
		if i >= nearest {
			r.Rising += p
		}
		if i <= nearest {
			r.Falling += p
		}
	}
	r.Rising, r.Falling = math.Min(1, r.Rising), math.Min(1, r.Falling)
	r.TwoSided = pointProbabilityTail(len(s.chance), nearest, func(i int) float64 { return s.chance[i] })
	return r
}
