package stats

import (
	"math"
	"slices"

	"gonum.org/v1/gonum/stat/distuv"
)

// RobustLine is a line by the median of the slopes of all pairs of points.
type RobustLine struct {
	Slope, Intercept float64
	SlopeInterval    Interval
	Confidence       float64 // that the interval truly has, more than what was asked
	Exact            bool    // false where ties or a hundred points ask for the normal approximation
}

const exactKendallPoints = 100 // above this the normal approximation errs by less than 1e-4

// TheilSen fits a line that a minority of bad points cannot bend. The interval
// has at least the confidence asked for, from Kendall's statistic; where too
// few points allow none, it is unbounded. Source: P. K. Sen, Journal of the
// American Statistical Association 63 (1968) 1379.
func TheilSen(x, y []float64, level float64) (RobustLine, error) {
	if err := checkPoints(x, y, 2); err != nil {
		return RobustLine{}, err
	}
	if err := checkLevel(level); err != nil {
		return RobustLine{}, err
	}
	slopes := pairSlopes(x, y)
	if len(slopes) == 0 {
		return RobustLine{}, ErrNoSlope
	}
	line := RobustLine{Slope: Median(slopes)}
	offsets := make([]float64, len(x))
	for i := range x {
		offsets[i] = y[i] - line.Slope*x[i]
	}
	line.Intercept = Median(offsets)
	cut := 0
	cut, line.Confidence, line.Exact = slopesToCut(x, y, len(slopes), level)
	line.SlopeInterval = Interval{math.Inf(-1), math.Inf(1)}
	if cut > 0 {
		line.SlopeInterval = Interval{slopes[cut-1], slopes[len(slopes)-cut]}
	}
	return line, nil
}

// pairSlopes gives the slopes of all pairs with different x, in order.
func pairSlopes(x, y []float64) []float64 {
	var slopes []float64
	for i := range x {
		for j := range i {
			if x[i] != x[j] {
				slopes = append(slopes, (y[i]-y[j])/(x[i]-x[j]))
			}
		}
	}
	slices.Sort(slopes)
	return slopes
}

// slopesToCut says which slope from either end bounds the interval. Sen's rule
// takes the rank k whose N − 2k is significant; such an interval misses only
// when |S| is at least N − 2k + 2, so that it holds more than it promises.
func slopesToCut(x, y []float64, pairs int, level float64) (cut int, confidence float64, exact bool) {
	exact = len(x) <= exactKendallPoints && !hasTies(x) && !hasTies(y)
	tail := normalKendallTail(x, y)
	if exact {
		tail = exactKendallTail(len(x))
	}
	confidence = 1
	for k := 1; 2*k <= pairs; k++ {
		if 1-2*tail(pairs-2*k) < level {
			break
		}
		cut, confidence = k, 1-2*tail(pairs-2*k+2)
	}
	return cut, confidence, exact
}

// exactKendallTail is P(S ≥ s) for n untied points, by the number of inversions.
func exactKendallTail(n int) func(s int) float64 {
	inversions := inversionChances(ones(n))
	total := n * (n - 1) / 2
	return func(s int) float64 {
		tail := 0.0
		for i := 0; total-2*i >= s && i < len(inversions); i++ {
			tail += inversions[i]
		}
		return tail
	}
}

func normalKendallTail(x, y []float64) func(s int) float64 {
	sd := math.Sqrt(kendallVariance(groupSizes(x), groupSizes(y)))
	return func(s int) float64 {
		return distuv.UnitNormal.Survival((float64(s) - 1) / sd)
	}
}

func ones(n int) []int {
	sizes := make([]int, n)
	for i := range sizes {
		sizes[i] = 1
	}
	return sizes
}
