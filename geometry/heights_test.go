package geometry

import (
	"fmt"
	"math"
	"strings"
	"testing"
)

// worn is a runner measured at toe, middle and heel.
func worn() []HeightAt { return []HeightAt{{-80, 20.2}, {0, 21.5}, {80, 20.6}} }

// The circle through three points by the determinant formula, 40 digits
// (mpmath 1.3.0).
func TestRockerOfThreeHeights(t *testing.T) {
	got, err := RockerFromHeights(worn())
	sound(t, err)
	near(t, "radius", got.Radius, 2909.66817670586, 1e-8)
	near(t, "balance point", got.BalancePoint, 7.27139772727273, 1e-9)
	near(t, "pitch is heel minus toe", got.HeelMinusToe, -0.4, 1e-10)
	near(t, "span", got.Span, 160, 0)
	near(t, "residual", got.Residual, 0, 0)
}

// Five heights: the least sum's conditions solved with 40 digits (mpmath 1.3.0).
func TestRockerOfFiveHeights(t *testing.T) {
	got, err := RockerFromHeights([]HeightAt{{-80, 20.10}, {-40, 21.15}, {0, 21.50}, {40, 21.20}, {80, 20.40}})
	sound(t, err)
	near(t, "radius", got.Radius, 2575.40667378318, 1e-7)
	near(t, "balance point", got.BalancePoint, 4.18312546755649, 1e-9)
	near(t, "pitch", got.HeelMinusToe, -0.260007131619, 1e-10)
	near(t, "residual", got.Residual, 0.02877104744, 1e-10)
}

// heightsOf measures a profile without error, the holder tilted by a pitch.
func heightsOf(t *testing.T, p Profile, perMillimetre Millimetre, stations ...Millimetre) []HeightAt {
	t.Helper()
	var heights []HeightAt
	for _, x := range stations {
		rise := p.riseAt(x)
		heights = append(heights, HeightAt{x, 22 - rise - perMillimetre*x})
	}
	return heights
}

// Heights taken off a profile give back its radius; with neutral pitch also its
// lowest point, and with a pitch the one that Contact finds.
func TestRockerGivesTheProfileBack(t *testing.T) {
	for _, radius := range []Millimetre{feet(7), feet(9.5), feet(11), feet(13), feet(28)} {
		p, err := NewProfile(10, Arc{radius, 280})
		sound(t, err)
		level, err := RockerFromHeights(heightsOf(t, p, 0, -80, 0, 80))
		sound(t, err)
		near(t, "radius", level.Radius/radius, 1, 1e-9)
		near(t, "balance point", level.BalancePoint, 10, 1e-7)
		tilted, err := RockerFromHeights(heightsOf(t, p, 1./160, -90, -60, -10, 30, 70))
		sound(t, err)
		pitch, err := PitchAngle(1, 160)
		sound(t, err)
		contact, err := p.Contact(pitch, 0.05)
		sound(t, err)
		near(t, "balance point with 1 mm of pitch", tilted.BalancePoint, contact.BalancePoint, 0.03) // tilting by shearing: R changes by 4e-5
	}
}

func TestRockerRefuses(t *testing.T) {
	for _, bad := range noLengths() {
		_, err := RockerFromHeights([]HeightAt{{-80, 20}, {0, bad}, {80, 20}})
		refused(t, "height", err)
	}
	for _, bad := range noNumbers() {
		_, err := RockerFromHeights([]HeightAt{{-80, 20}, {bad, 21}, {80, 20}})
		refused(t, "station", err)
	}
	for what, heights := range map[string][]HeightAt{
		"nothing":                       nil,
		"two heights":                   {{-80, 20}, {0, 21}},
		"three at two stations":         {{-80, 20}, {0, 21}, {0, 21.1}},
		"level":                         {{-80, 20}, {0, 20}, {80, 20}},
		"sloping":                       {{-80, 20}, {0, 20.5}, {80, 21}},
		"lowest in the middle":          {{-80, 20}, {0, 19}, {80, 20}},
		"lowest in the middle, of five": {{-80, 20}, {-40, 19.5}, {0, 19}, {40, 19.4}, {80, 20}},
		"deeper than half a circle":     {{-80, 20}, {0, 500}, {80, 20}},
	} {
		_, err := RockerFromHeights(heights)
		refused(t, what, err)
		if bowed := strings.HasPrefix(what, "lowest"); bowed != strings.Contains(fmt.Sprint(err), "lowest in the middle") {
			t.Errorf("%s: the error does not say what is wrong: %v", what, err)
		}
	}
}

func TestRockerMeaning(t *testing.T) {
	got, err := RockerFromHeights(worn())
	sound(t, err)
	want := "About 9.5 ft; pitch back -0.4 mm over 160 mm; balanced 7 mm ahead of the middle."
	if got.Meaning() != want {
		t.Errorf("got %q, want %q", got.Meaning(), want)
	}
	if strings.Contains(got.Meaning(), fmt.Sprint(math.NaN())) {
		t.Error("NaN in a sentence")
	}
}
