package geometry

import (
	"math"
	"testing"
)

func TestPitchAngle(t *testing.T) {
	one, err := PitchAngle(1, 160)
	sound(t, err)
	near(t, "1 mm over 160 mm", one, 0.358094, 5e-7) // atan(1/160), bc 1.07
	for _, difference := range []Millimetre{-30, -0.01, 0, 0.4, 160} {
		angle, err := PitchAngle(difference, 160)
		sound(t, err)
		back := 160 * Millimetre(math.Tan(float64(angle.Radians())))
		near(t, "heel minus toe back", back, difference, 1e-12)
	}
}

func TestFormatPitch(t *testing.T) {
	for difference, want := range map[Millimetre]string{
		1: "forward +1.0 mm", -0.5: "back -0.5 mm", 0: "neutral", 0.049: "neutral", -0.049: "neutral",
		0.05: "forward +0.1 mm", Millimetre(math.NaN()): "not known",
	} {
		if got := FormatPitch(difference); got != want {
			t.Errorf("%v: got %q, want %q", float64(difference), got, want)
		}
	}
}

func TestPitchOnAProfile(t *testing.T) {
	got, err := Pitch(feet(11), 1, 160)
	sound(t, err)
	near(t, "balance point", got.BalancePoint, -20.954590734646, 1e-10) // 40 digits, mpmath 1.3.0
	want := "Pitch forward +1.0 mm tilts the boot by 0.36°; with the boot level the steel is lowest 21 mm behind the middle."
	if got.Meaning() != want {
		t.Errorf("got %q, want %q", got.Meaning(), want)
	}
	_, err = Pitch(0, 1, 160)
	refused(t, "radius", err)
	_, err = Pitch(feet(11), 1, 0)
	refused(t, "span", err)
}

func TestPitchRefuses(t *testing.T) {
	for _, bad := range noLengths() {
		_, err := PitchAngle(1, bad)
		refused(t, "span", err)
	}
	for _, bad := range noNumbers() {
		_, err := PitchAngle(bad, 160)
		refused(t, "heel minus toe", err)
	}
}
