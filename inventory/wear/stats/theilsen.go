package stats

import (
	"errors"
	"fmt"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// RobustLine is a slope by the median of the slopes of all pairs of points.
type RobustLine struct {
	Slope         float64
	SlopeInterval Interval
	Confidence    float64 // that the interval truly has, more than what was asked
	Exact         bool    // false where many points or ties ask for the normal approximation
}

// StratifiedTheilSen gives the slope that one or more strata share, from pairs of
// points within them only: a minority of bad points cannot bend it. The interval
// has at least the confidence asked for, from Kendall's statistic; where too few
// points allow none, it is unbounded. Sources: P. K. Sen, Journal of the American
// Statistical Association 63 (1968) 1379; R. M. Hirsch, J. R. Slack, R. A. Smith,
// Water Resources Research 18 (1982) 107.
func StratifiedTheilSen(strata []Stratum, level float64) (RobustLine, error) {
	if err := checkLevel(level); err != nil {
		return RobustLine{}, err
	}
	var slopes []float64
	for i, s := range strata {
		if err := checkPoints(s.Times, s.Values, 0); err != nil {
			return RobustLine{}, fmt.Errorf("stratum %d: %w", i+1, err)
		}
		slopes = append(slopes, pairSlopes(s.Times, s.Values)...)
	}
	if len(slopes) == 0 {
		return RobustLine{}, ErrNoSlope
	}
	slices.Sort(slopes)
	line := RobustLine{Slope: Median(slopes), SlopeInterval: Interval{math.Inf(-1), math.Inf(1)}}
	tail, exact, err := kendallTail(strata)
	if err != nil {
		return RobustLine{}, err
	}
	cut := 0
	cut, line.Confidence = slopesToCut(len(slopes), level, tail)
	line.Exact = exact
	if cut > 0 {
		line.SlopeInterval = Interval{slopes[cut-1], slopes[len(slopes)-cut]}
	}
	return line, nil
}

// pairSlopes gives the slopes of all pairs with different x.
func pairSlopes(x, y []float64) []float64 {
	var slopes []float64
	for i := range x {
		for j := range i {
			if x[i] != x[j] {
				slopes = append(slopes, (y[i]-y[j])/(x[i]-x[j]))
			}
		}
	}
	return slopes
}

// slopesToCut says which slope from either end bounds the interval. Sen's rule
// takes the rank k whose N − 2k is significant; such an interval misses only
// when |S| is at least N − 2k + 2, so that it holds more than it promises.
func slopesToCut(pairs int, level float64, tail func(s int) float64) (cut int, confidence float64) {
	confidence = 1
	for k := 1; 2*k <= pairs; k++ {
		if 1-2*tail(pairs-2*k) < level {
			break
		}
		cut, confidence = k, 1-2*tail(pairs-2*k+2)
	}
	return cut, confidence
}

// kendallTail is P(S ≥ s) were there no slope: exact where it can be.
func kendallTail(strata []Stratum) (tail func(s int) float64, exact bool, err error) {
	total, variance, err := kendallTotal(strata)
	if errors.Is(err, ErrTooLarge) {
		sd := math.Sqrt(variance)
		return func(s int) float64 { return distuv.UnitNormal.Survival((float64(s) - 1) / sd) }, false, nil
	}
	return total.atLeast, err == nil, err
}

// ErrNoSlope says that all points have the same x, so that no line is steeper
// than another.
var ErrNoSlope = errors.New("all x are the same: there is no slope")

// Line is a straight line fitted by least squares.
type Line struct {
	Slope, Intercept          float64
	n, meanX, sumSquaresAbout float64
}

// FitLine fits y = intercept + slope·x to two or more points. Source: any
// textbook; held against NIST StRD Norris.
func FitLine(x, y []float64) (Line, error) {
	if err := checkPoints(x, y, 2); err != nil {
		return Line{}, err
	}
	mx, my := stat.Mean(x, nil), stat.Mean(y, nil)
	var sxx, sxy float64
	for i := range x {
		dx := x[i] - mx
		sxx, sxy = sxx+dx*dx, sxy+dx*(y[i]-my)
	}
	if sxx == 0 {
		return Line{}, ErrNoSlope
	}
	slope := sxy / sxx
	return Line{slope, my - slope*mx, float64(len(x)), mx, sxx}, nil
}

// Leverage is the variance of the line's height at x, in units of one point's
// error variance.
func (l Line) Leverage(x float64) float64 {
	d := x - l.meanX
	return 1/l.n + d*d/l.sumSquaresAbout
}

// StudentQuantile is the p-quantile of Student's t with ν degrees of freedom,
// 0 < p < 1, ν above 0.
func StudentQuantile(p, nu float64) float64 {
	return distuv.StudentsT{Mu: 0, Sigma: 1, Nu: nu}.Quantile(p)
}

func checkPoints(x, y []float64, least int) error {
	if err := checkPaired("points", len(x), len(y)); err != nil {
		return err
	}
	if len(x) < least {
		return fmt.Errorf("%d points are too few: measure at least %d", len(x), least)
	}
	return errors.Join(checkFinite("x", x...), checkFinite("y", y...))
}
