package stats

import (
	"errors"
	"fmt"
	"math"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// ErrNoSlope says that all points have the same x, so that no line is steeper
// than another.
var ErrNoSlope = errors.New("all x are the same: there is no slope")

// Line is a straight line fitted by least squares. The spreads need three
// points; with two they are 0 and the intervals refuse.
type Line struct {
	N                      int
	Slope, Intercept       float64
	SlopeSD, InterceptSD   float64 // standard errors
	ResidualSD             float64
	RSquared               float64
	meanX, sumSquaresAbout float64
}

// FitLine fits y = intercept + slope·x to two or more points. Source: any
// textbook; held against NIST StRD Norris.
func FitLine(x, y []float64) (Line, error) {
	if err := checkPoints(x, y, 2); err != nil {
		return Line{}, err
	}
	n := float64(len(x))
	mx, my := stat.Mean(x, nil), stat.Mean(y, nil)
	var sxx, sxy, syy float64
	for i := range x {
		dx, dy := x[i]-mx, y[i]-my
		sxx, sxy, syy = sxx+dx*dx, sxy+dx*dy, syy+dy*dy
	}
	if sxx == 0 {
		return Line{}, ErrNoSlope
	}
	l := Line{N: len(x), Slope: sxy / sxx, RSquared: 1, meanX: mx, sumSquaresAbout: sxx}
	l.Intercept = my - l.Slope*mx
	residual := 0.0
	for i := range x {
		e := (y[i] - my) - l.Slope*(x[i]-mx)
		residual += e * e
	}
	if syy > 0 {
		l.RSquared = 1 - residual/syy
	}
	if l.N > 2 {
		l.ResidualSD = math.Sqrt(residual / (n - 2))
		l.SlopeSD = l.ResidualSD / math.Sqrt(sxx)
		l.InterceptSD = l.ResidualSD * math.Sqrt(1/n+mx*mx/sxx)
	}
	return l, nil
}

// At is the line's height at x.
func (l Line) At(x float64) float64 { return l.Intercept + l.Slope*x }

// SlopeInterval holds the true slope with the given confidence.
func (l Line) SlopeInterval(level float64) (Interval, error) {
	return l.around(l.Slope, l.SlopeSD, level)
}

// MeanInterval holds the true line's height at x with the given confidence.
func (l Line) MeanInterval(x, level float64) (Interval, error) {
	return l.around(l.At(x), l.ResidualSD*math.Sqrt(l.Leverage(x)), level)
}

// PredictionInterval holds one further observation at x with the given confidence.
func (l Line) PredictionInterval(x, level float64) (Interval, error) {
	return l.around(l.At(x), l.ResidualSD*math.Sqrt(1+l.Leverage(x)), level)
}

// Leverage is the variance of the line's height at x, in units of one point's
// error variance.
func (l Line) Leverage(x float64) float64 {
	d := x - l.meanX
	return 1/float64(l.N) + d*d/l.sumSquaresAbout
}

func (l Line) around(centre, sd, level float64) (Interval, error) {
	if err := checkLevel(level); err != nil {
		return Interval{}, err
	}
	if l.N < 3 {
		return Interval{}, fmt.Errorf("a line through %d points has no spread: measure a third", l.N)
	}
	half := sd * StudentQuantile((1+level)/2, float64(l.N-2))
	return Interval{centre - half, centre + half}, nil
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
