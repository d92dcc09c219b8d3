package geometry

import (
	"math"
	"strings"
	"testing"
)

// Depth and edge angle from R − √(R² − w²/4) and 90° − asin(w/2R), computed with
// 40 digits (mpmath 1.3.0). The five rows of 2.9 mm but 7/16 in and 1 1/2 in are
// also the values of an independent computation to five decimals.
func TestHollowAgainstLongArithmetic(t *testing.T) {
	for _, row := range []struct {
		thickness Millimetre
		radius    Inch
		depth     Millimetre
		edge      Degree
	}{
		{2.9, 3. / 8, 0.111014393468, 81.2437631985},
		{2.9, 7. / 16, 0.095006807354, 82.5024562308},
		{2.9, 1. / 2, 0.0830471190545, 83.4440595651},
		{2.9, 5. / 8, 0.0663591665823, 84.7593805558},
		{2.9, 3. / 4, 0.055263887066, 85.6346818544},
		{2.9, 1, 0.0414215698119, 86.7273987939},
		{2.9, 1.5, 0.0276018617361, 87.8189252361},
		{3.0, 1. / 2, 0.0888937836524, 83.2169485366},
		{4.0, 3. / 8, 0.212340605391, 77.8791858751},
		{4.0, 1, 0.078862584789, 85.4838463727},
	} {
		got, err := Hollow(row.radius.Millimetres(), row.thickness)
		sound(t, err)
		near(t, "depth", got.Depth, row.depth, 1e-10)
		near(t, "edge angle", got.EdgeAngle, row.edge, 1e-9)
		near(t, "bite angle", got.BiteAngle, 90-row.edge, 1e-9)
	}
}

// The digits that shops would compare: computed apart from this package, depth
// to five decimals of a millimetre, edge angle to four of a degree.
func TestHollowOn29mm(t *testing.T) {
	for _, row := range []struct {
		radius Inch
		depth  Millimetre
		edge   Degree
	}{
		{3. / 8, 0.11101, 81.2438}, {1. / 2, 0.08305, 83.4441}, {5. / 8, 0.06636, 84.7594},
		{3. / 4, 0.05526, 85.6347}, {1, 0.04142, 86.7274},
	} {
		got, err := Hollow(row.radius.Millimetres(), 2.9)
		sound(t, err)
		near(t, "depth", got.Depth, row.depth, 5.01e-6)
		near(t, "edge angle", got.EdgeAngle, row.edge, 5.01e-5)
	}
}

// Common practice, no source: a half-inch hollow is deeper and bites more than
// five-eighths, and is sharper at the edge.
func TestSmallerRadiusBitesMore(t *testing.T) {
	last, err := Hollow(2, 2.9)
	sound(t, err)
	for radius := Millimetre(2.5); radius < 60; radius += 0.5 {
		flatter, err := Hollow(radius, 2.9)
		sound(t, err)
		if !(flatter.Depth < last.Depth && flatter.BiteAngle < last.BiteAngle && flatter.EdgeAngle > last.EdgeAngle) {
			t.Fatalf("%v does not bite less than the hollow before it: %+v after %+v", radius, flatter, last)
		}
		last = flatter
	}
}

func TestHollowLimits(t *testing.T) {
	half, err := Hollow(1.45, 2.9)
	sound(t, err)
	near(t, "depth of a half circle", half.Depth, 1.45, 1e-15)
	near(t, "bite of a half circle", half.BiteAngle, 90, 1e-12)
	flat, err := Hollow(1e9, 2.9)
	sound(t, err)
	near(t, "edge angle of flat steel", flat.EdgeAngle, 90, 1e-6)
	near(t, "depth of flat steel times 8R/w²", flat.Depth*8e9/(2.9*2.9), 1, 1e-12)
}

func TestHollowRoundTrips(t *testing.T) {
	for _, radius := range []Millimetre{1.5, 9.525, 12.7, 25.4, 100} {
		shape, err := Hollow(radius, 2.9)
		sound(t, err)
		byDepth, err := HollowFromDepth(shape.Depth, 2.9)
		sound(t, err)
		near(t, "radius from depth", byDepth.Radius/radius, 1, 1e-12)
		byBite, err := HollowFromBite(shape.BiteAngle, 2.9)
		sound(t, err)
		near(t, "radius from bite angle", byBite.Radius/radius, 1, 1e-12)
	}
}

func TestHollowRefuses(t *testing.T) {
	for _, bad := range noLengths() {
		_, err := Hollow(bad, 2.9)
		refused(t, "radius", err)
		_, err = Hollow(12.7, bad)
		refused(t, "thickness", err)
		_, err = HollowFromDepth(bad, 2.9)
		refused(t, "depth", err)
		_, err = HollowFromBite(5, bad)
		refused(t, "thickness beside a bite angle", err)
		_, err = HollowFromBite(Degree(bad), 2.9)
		refused(t, "bite angle", err)
	}
	_, err := Hollow(1.4499, 2.9)
	refused(t, "runner thicker than twice the radius", err)
	if err == nil || !strings.Contains(err.Error(), "1.45 mm") {
		t.Errorf("the error does not say what would do: %v", err)
	}
	_, err = HollowFromDepth(1.46, 2.9)
	refused(t, "hollow deeper than a half circle", err)
	_, err = HollowFromBite(90, 2.9)
	refused(t, "bite angle of 90°", err)
}

func TestHollowMeaning(t *testing.T) {
	half, err := Hollow(inches(0.5), 2.9)
	sound(t, err)
	want := "1/2 in bites more than 5/8 in and glides less; 3/8 in would bite still more."
	if got := half.Meaning(); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	deepest, err := Hollow(inches(1./8), 2.9)
	sound(t, err)
	if got := deepest.Meaning(); strings.Contains(got, "still more") {
		t.Errorf("offers a hollow that is too small for the runner: %q", got)
	}
}

func TestSixteenthsOfAnInch(t *testing.T) {
	// Decimal equivalents of the sixteenths, as every drill chart prints them (from memory).
	for n, want := range map[Millimetre]Millimetre{1: 1.5875, 3: 4.7625, 7: 11.1125, 11: 17.4625, 13: 20.6375, 15: 23.8125} {
		near(t, "sixteenths", n*sixteenth, want, 1e-12)
	}
	near(t, "nearest", NearestSixteenth(12.9), 12.7, 1e-12)
	near(t, "halfway goes up", NearestSixteenth(12.7+sixteenth/2), 12.7+sixteenth, 1e-12)
	if !math.IsNaN(float64(NearestSixteenth(Millimetre(math.NaN())))) {
		t.Error("no number became one")
	}
}
