package geometry

import (
	"math"
	"testing"
)

func TestFormatHollow(t *testing.T) {
	for length, want := range map[Millimetre]string{
		12.7: "1/2 in", 9.525: "3/8 in", 9.53: "3/8 in", 14.29: "9/16 in", 25.4: "1 in", 28.575: "1 1/8 in",
		50.8: "2 in", 12.5: "12.5 mm", 13: "13 mm", 60.325: "60.33 mm", 0.001: "0 mm",
		0: "not known", -12.7: "not known", Millimetre(math.NaN()): "not known", Millimetre(math.Inf(1)): "not known",
	} {
		if got := FormatHollow(length); got != want {
			t.Errorf("hollow of %g mm: got %q, want %q", float64(length), got, want)
		}
	}
}

func TestFormatProfile(t *testing.T) {
	for length, want := range map[Millimetre]string{
		feet(11): "11 ft", feet(10.5): "10 1/2 ft", feet(9): "9 ft", 3353: "11 ft", feet(0.5): "1/2 ft",
		3400: "3400 mm", 3350: "3350 mm", 0: "not known", -1: "not known", Millimetre(math.NaN()): "not known",
	} {
		if got := FormatProfile(length); got != want {
			t.Errorf("profile of %g mm: got %q, want %q", float64(length), got, want)
		}
	}
}

// What is printed can be typed back in.
func TestShopWordsParse(t *testing.T) {
	for n := 1; n <= 32; n++ {
		want := Millimetre(n) * sixteenth
		got, err := ParseLength(FormatHollow(want))
		sound(t, err)
		near(t, FormatHollow(want), got, want, 1e-12)
	}
	for n := 1; n <= 60; n++ {
		want := Millimetre(n) * foot / 2
		got, err := ParseLength(FormatProfile(want))
		sound(t, err)
		near(t, FormatProfile(want), got, want, 1e-9)
	}
}

func TestAngles(t *testing.T) {
	near(t, "half a turn", Radian(math.Pi).Degrees(), 180, 1e-13)
	near(t, "there and back", Degree(83.4441).Radians().Degrees(), 83.4441, 1e-13)
	if got := Degree(83.4441).String(); got != "83.44°" {
		t.Errorf("got %q", got)
	}
}
