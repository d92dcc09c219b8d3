package stats

import (
	"errors"
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
	if l.N != 36 {
		t.Fatalf("%d points, want 36", l.N)
	}
	same(t, "slope", l.Slope, "1.00211681802045")
	within(t, "slope sd", l.SlopeSD, 0.429796848199937e-03, 3e-13)
	within(t, "intercept", l.Intercept, -0.262323073774029, 3e-13)
	within(t, "intercept sd", l.InterceptSD, 0.232818234301152, 3e-13)
	within(t, "residual sd", l.ResidualSD, 0.884796396144373, 3e-13)
	same(t, "R²", l.RSquared, "0.999993745883712")
}

// Intervals: computed with R 4.2.2, predict.lm.
func TestLineIntervals(t *testing.T) {
	rows := reference(t, "norris.csv")
	l, err := FitLine(column(t, rows, "x"), column(t, rows, "y"))
	if err != nil {
		t.Fatal(err)
	}
	slope, err1 := l.SlopeInterval(.95)
	mean, err2 := l.MeanInterval(500, .95)
	one, err3 := l.PredictionInterval(500, .95)
	if err := errors.Join(err1, err2, err3); err != nil {
		t.Fatal(err)
	}
	same(t, "slope from", slope.Low, "1.00124336573558")
	same(t, "slope to", slope.High, "1.00299027030533")
	same(t, "half-width of the mean at 500", (mean.High-mean.Low)/2, "0.307889")
	same(t, "half-width of one more at 500", (one.High-one.Low)/2, "1.824292")
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
	if _, err := two.SlopeInterval(.95); err == nil {
		t.Error("two points gave an interval")
	}
	if _, err := two.SlopeInterval(95); err == nil {
		t.Error("95 passed for a confidence")
	}
}
