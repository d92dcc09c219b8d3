package stats

import (
	"errors"
	"math"
	"testing"
)

func TestRootOfKnownFunctions(t *testing.T) {
	cases := []struct {
		name      string
		f         func(float64) float64
		low, high float64
		want      float64
	}{
		{"cosine", math.Cos, 0, 3, math.Pi / 2},
		{"cube", func(x float64) float64 { return x*x*x - 2 }, -5, 5, math.Cbrt(2)},
		// Wallis's own example of Newton's method (from memory).
		{"Wallis", func(x float64) float64 { return x*x*x - 2*x - 5 }, 0, 3, 2.0945514815423265},
		{"flat then steep", func(x float64) float64 { return math.Exp(50*x) - math.Exp(45) }, 0, 1, .9},
		{"at a bound", func(x float64) float64 { return x }, 0, 1, 0},
	}
	for _, c := range cases {
		got, err := Root(c.f, c.low, c.high, 0)
		if err != nil || math.Abs(got-c.want) > 1e-13 {
			t.Errorf("%s: root %.17g, %v, want %.17g", c.name, got, err, c.want)
		}
	}
}

func TestRootRefusesWhatItCannotBracket(t *testing.T) {
	if _, err := Root(math.Exp, 0, 1, 0); !errors.Is(err, ErrNoRoot) {
		t.Errorf("no change of sign: %v", err)
	}
	if _, err := Root(math.Log, -1, 2, 0); !errors.Is(err, ErrNoRoot) {
		t.Errorf("undefined at a bound: %v", err)
	}
}
