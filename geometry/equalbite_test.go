package geometry

import (
	"math"
	"testing"
)

// The bite angle stays, by its own formula, whatever the thickness.
func TestEqualBiteKeepsTheAngle(t *testing.T) {
	for _, other := range []Millimetre{1.2, 2.8, 3.0, 3.5, 4.0} {
		for _, radius := range []Millimetre{9.525, 12.7, 15.875, 25.4} {
			got, err := EqualBiteHollow(radius, 2.9, other)
			sound(t, err)
			near(t, "bite angle on the other runner",
				math.Asin(float64(other/2/got.Exact.Radius)), math.Asin(float64(2.9/2/radius)), 1e-14)
			if away := (got.Sixteenth.Radius - got.Exact.Radius).abs(); away > sixteenth/2+1e-12 {
				t.Errorf("%v on %v: %v is not the nearest sixteenth to %v", radius, other, got.Sixteenth.Radius, got.Exact.Radius)
			}
			near(t, "what rounding costs", got.Off, got.Sixteenth.BiteAngle-got.From.BiteAngle, 1e-12)
		}
	}
}

// 1/2 in on 2.9 mm is 12.7·4/2.9 = 17.5172 mm on 4 mm, 11.03 sixteenths: 11/16 in.
func TestEqualBiteForThickSteel(t *testing.T) {
	got, err := EqualBiteHollow(inches(0.5), 2.9, 4)
	sound(t, err)
	near(t, "exact", got.Exact.Radius, 17.5172413793, 1e-9)
	if name := FormatHollow(got.Sixteenth.Radius); name != "11/16 in" {
		t.Errorf("nearest sixteenth: got %s, want 11/16 in", name)
	}
	want := "On 4 mm steel 11/16 in bites like 1/2 in on 2.9 mm steel (off by +0.02°)."
	if got.Meaning() != want {
		t.Errorf("got %q, want %q", got.Meaning(), want)
	}
}

func TestEqualBiteRoundTrip(t *testing.T) {
	there, err := EqualBiteHollow(inches(5./8), 2.9, 3.7)
	sound(t, err)
	back, err := EqualBiteHollow(there.Exact.Radius, 3.7, 2.9)
	sound(t, err)
	near(t, "radius there and back", back.Exact.Radius, inches(5./8), 1e-12)
}

// A rounded radius must still reach across the runner.
func TestEqualBiteNeverTooSmall(t *testing.T) {
	got, err := EqualBiteHollow(1.46, 2.9, 3.2) // exact 1.611 mm, nearest sixteenth 1.5875 < 1.6
	sound(t, err)
	near(t, "sixteenth", got.Sixteenth.Radius, 2*sixteenth, 1e-12)
}

func TestEqualBiteRefuses(t *testing.T) {
	for _, bad := range noLengths() {
		_, err := EqualBiteHollow(bad, 2.9, 4)
		refused(t, "radius", err)
		_, err = EqualBiteHollow(12.7, bad, 4)
		refused(t, "thickness", err)
		_, err = EqualBiteHollow(12.7, 2.9, bad)
		refused(t, "other thickness", err)
	}
}
