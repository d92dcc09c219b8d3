package stats

import (
	"errors"
	"math"
	"testing"
)

// Certified values: NIST Statistical Reference Datasets, Norris. The data are
// decimals: their rounding to binary alone, all else exact, moves the residual
// and the intercept by 1 in the 14th digit and slope·mean costs the next, hence
// 3e-13 where the value is a difference of large ones.
func TestLineNorris(t *testing.T) {
	rows := reference(t, "norris.csv")
	l, err := FitLine(column(t, rows, "x"), column(t, rows, "y"))
	if err != nil {
		t.Fatal(err)
	}
	same(t, "slope", l.Slope, "1.00211681802045")
	within(t, "intercept", l.Intercept, -0.262323073774029, 3e-13)
	const residual = 0.884796396144373
	within(t, "intercept sd, by the leverage at 0", residual*math.Sqrt(l.Leverage(0)), 0.232818234301152, 3e-13)
	// R 4.2.2, predict.lm: half of the width of the 95 % interval of the mean.
	same(t, "half-width of the mean at 500", residual*math.Sqrt(l.Leverage(500))*StudentQuantile(.975, 34), "0.307889")
}

func TestLineRefuses(t *testing.T) {
	if _, err := FitLine([]float64{3, 3, 3}, []float64{1, 2, 3}); !errors.Is(err, ErrNoSlope) {
		t.Errorf("constant x: %v", err)
	}
	if _, err := FitLine([]float64{3}, []float64{1}); err == nil {
		t.Error("one point made a line")
	}
	if _, err := FitLine([]float64{1, 2}, []float64{1}); err == nil {
		t.Error("unequal lists made a line")
	}
	two, err := FitLine([]float64{1, 2}, []float64{1, 3})
	if err != nil || two.Slope != 2 || two.Intercept != -1 {
		t.Errorf("two points: %+v, %v", two, err)
	}
}
