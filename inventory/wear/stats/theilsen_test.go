package stats

import (
	"errors"
	"math"
	"testing"
)

// Source: P. K. Sen, Journal of the American Statistical Association 63 (1968)
// 1379, the worked example: slope 4, 93 % interval 3.71 to 4.38.
func TestTheilSenPublishedExample(t *testing.T) {
	x := []float64{1, 2, 3, 4, 10, 12, 18}
	y := []float64{9, 15, 19, 20, 45, 55, 78}
	l, err := StratifiedTheilSen([]Stratum{{x, y}}, .93)
	if err != nil {
		t.Fatal(err)
	}
	same(t, "slope", l.Slope, "4.0000000")
	same(t, "from", l.SlopeInterval.Low, "3.7142857")
	same(t, "to", l.SlopeInterval.High, "4.3750000")
	// 76 of 5040 orders of seven have at most three inversions (OEIS A008302).
	if want := 1 - 2*76.0/5040; math.Abs(l.Confidence-want) > 1e-12 || !l.Exact {
		t.Errorf("confidence %v (exact %v), want %v", l.Confidence, l.Exact, want)
	}
}

func TestTheilSenRefusesAConstantX(t *testing.T) {
	if _, err := StratifiedTheilSen([]Stratum{{[]float64{2, 2}, []float64{1, 3}}}, .9); !errors.Is(err, ErrNoSlope) {
		t.Errorf("constant x: %v", err)
	}
}

func TestTheilSenTooFewPointsForAnInterval(t *testing.T) {
	l, err := StratifiedTheilSen([]Stratum{{[]float64{0, 1, 2}, []float64{0, 1, 9}}}, .8)
	if err != nil || l.Slope != 4.5 {
		t.Fatalf("slope %v, %v, want 4.5", l.Slope, err)
	}
	if !math.IsInf(l.SlopeInterval.Low, -1) || !math.IsInf(l.SlopeInterval.High, 1) {
		t.Errorf("three points bound the slope: %+v", l.SlopeInterval)
	}
}

func TestTheilSenIgnoresOneBadPoint(t *testing.T) {
	x, y := make([]float64, 12), make([]float64, 12)
	for i := range x {
		x[i], y[i] = float64(i), 20-.5*float64(i)
	}
	y[6] = 81.7
	l, err := StratifiedTheilSen([]Stratum{{x, y}}, .9)
	if err != nil || l.Slope != -.5 || !l.SlopeInterval.Contains(-.5) {
		t.Errorf("slope %v in %+v, %v", l.Slope, l.SlopeInterval, err)
	}
}
