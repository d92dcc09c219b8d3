package trend

import (
	"math"
	"testing"
)

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if !(math.Abs(got-want) <= tolerance) {
		t.Errorf("%s: got %.10g, want %.10g", what, got, want)
	}
}

// fromLogs makes losses of given log ratios.
func fromLogs(logs ...float64) (left, right []float64) {
	for _, l := range logs {
		left, right = append(left, .02*math.Exp(l)), append(right, .02)
	}
	return left, right
}

// Source: R 4.2.2, t.test of the log ratios.
func TestSidesPairedT(t *testing.T) {
	left, right := fromLogs(.1, .02, .15, -.03, .08, .12, .04, .09)
	s, err := CompareSides(left, right, .95, .05)
	if err != nil || s.Pairs != 8 || !s.Tested {
		t.Fatalf("%+v, %v", s, err)
	}
	near(t, "p", s.P, .0104859622574, 1e-12)
	near(t, "log ratio", math.Log(s.Ratio), .07125, 1e-12)
	near(t, "from", math.Log(s.Interval.Low), .0226173718845, 1e-10)
	near(t, "to", math.Log(s.Interval.High), .1198826281155, 1e-10)
	// Signs that reach .57 of .63: all alike, or only the .02 or the −.03 turned
	// either way: of 256 the sums .63, .59, .57 and their opposites.
	near(t, "sign flip", s.SignFlip, 6.0/256, 1e-15)
}

func TestSidesWithFewPairs(t *testing.T) {
	left, right := fromLogs(.3, .31, .29)
	three, err := CompareSides(left, right, .8, .05)
	if err != nil || three.Tested || three.P != 1 || !(three.Interval.Low > 1) {
		t.Errorf("three pairs: %+v, %v: want an interval and no test", three, err)
	}
	one, err := CompareSides(left[:1], right[:1], .8, .05)
	if err != nil || one.Interval.Low != 0 || !math.IsInf(one.Interval.High, 1) || !math.IsInf(one.Detectable, 1) {
		t.Errorf("one pair: %+v, %v: want no bounds", one, err)
	}
	if _, err := CompareSides([]float64{.02, 0}, []float64{.02, .02}, .8, .05); err == nil {
		t.Error("a runner that lost nothing was compared")
	}
	if _, err := CompareSides(nil, nil, .8, .05); err == nil {
		t.Error("no pairs were compared")
	}
}

// Source: R 4.2.2, power.t.test(type "paired", strict, tol 1e-13), sd .08, power .8.
func TestDetectableDifference(t *testing.T) {
	for _, c := range []struct {
		n           int
		alpha, want float64
	}{
		{4, .05, .170235947461}, {8, .05, .0924827742396}, {16, .05, .0599572515611},
		{4, .05 / 7, .33363771528394}, {8, .05 / 7, .13565155649160}, {16, .05 / 7, .08050244434357},
	} {
		near(t, "difference", .08*detectable(c.n, c.alpha), c.want, 1e-9)
	}
}
