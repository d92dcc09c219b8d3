package geometry

import (
	"errors"
	"math"
	"testing"
)

// number is every unit type of the package.
type number interface{ ~float64 }

// near fails when got is not within tolerance of want; NaN is never near.
func near[N number](t *testing.T, what string, got, want N, tolerance float64) {
	t.Helper()
	if !(math.Abs(float64(got-want)) <= tolerance) {
		t.Errorf("%s: got %.12g, want %.12g within %g", what, float64(got), float64(want), tolerance)
	}
}

// sound fails the test at once when a computation that must succeed did not.
func sound(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// refused fails when an impossible value was taken, or refused without
// ErrOutOfRange and a word on what to do.
func refused(t *testing.T, what string, err error) {
	t.Helper()
	if !errors.Is(err, ErrOutOfRange) {
		t.Errorf("%s: got error %v, want one that wraps ErrOutOfRange", what, err)
	}
}

// noLengths are lengths that no formula here may take.
func noLengths() []Millimetre {
	return []Millimetre{Millimetre(math.NaN()), Millimetre(math.Inf(1)), Millimetre(math.Inf(-1)), -1, 0}
}

// noNumbers are values that even an offset or a station may not have.
func noNumbers() []Millimetre { return noLengths()[:3] }

// inches makes the hollow radii of the tests.
func inches(l Inch) Millimetre { return l.Millimetres() }

// feet makes the profile radii of the tests.
func feet(n float64) Millimetre { return Inch(12 * n).Millimetres() }
