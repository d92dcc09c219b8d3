package stats

import (
	"errors"
	"fmt"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

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
