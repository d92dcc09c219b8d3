package stats

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

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
