package geometry

import (
	"strings"
	"testing"
)

// atan(0.1/0.45) and 1.45/sin of it, computed with 40 digits (mpmath 1.3.0).
func TestFlatCutAgainstLongArithmetic(t *testing.T) {
	got, err := FlatBottomedCut(2, 0.1, 2.9)
	sound(t, err)
	near(t, "bite angle", got.BiteAngle, 12.528807709152, 1e-10)
	near(t, "edge angle", got.EdgeAngle, 90-12.528807709152, 1e-10)
	near(t, "radius of equal bite", got.EqualBite, 6.6841697315373, 1e-11)
}

// The hollow of equal bite has the bite angle of the cut.
func TestFlatCutEqualsItsHollow(t *testing.T) {
	for _, flat := range []Millimetre{0.5, 1.5, 2.5} {
		for _, edge := range []Millimetre{0.01, 0.03, 0.08} {
			cut, err := FlatBottomedCut(flat, edge, 2.9)
			sound(t, err)
			hollow, err := Hollow(cut.EqualBite, 2.9)
			sound(t, err)
			near(t, "bite angle", hollow.BiteAngle, cut.BiteAngle, 1e-11)
			near(t, "edge angle", hollow.EdgeAngle, cut.EdgeAngle, 1e-11)
		}
	}
}

// With the flat shrunk to nothing, two straight slopes of a hollow's depth are
// nearly half as steep at the edge as the hollow itself (chord against tangent
// of a parabola).
func TestFlatCutWithoutAFlat(t *testing.T) {
	hollow, err := Hollow(inches(1), 2.9)
	sound(t, err)
	cut, err := FlatBottomedCut(1e-9, hollow.Depth, 2.9)
	sound(t, err)
	near(t, "bite against the hollow's", float64(cut.BiteAngle/hollow.BiteAngle), 0.5, 1e-3)
}

func TestFlatCutMonotone(t *testing.T) {
	base, err := FlatBottomedCut(2, 0.05, 2.9)
	sound(t, err)
	higher, err := FlatBottomedCut(2, 0.06, 2.9)
	sound(t, err)
	wider, err := FlatBottomedCut(2.2, 0.05, 2.9)
	sound(t, err)
	if !(higher.BiteAngle > base.BiteAngle && higher.EqualBite < base.EqualBite) {
		t.Error("higher edges do not bite more")
	}
	if !(wider.BiteAngle > base.BiteAngle) {
		t.Error("a wider flat with the same edges is not steeper")
	}
}

func TestFlatCutRefuses(t *testing.T) {
	for _, bad := range noLengths() {
		_, err := FlatBottomedCut(bad, 0.05, 2.9)
		refused(t, "flat width", err)
		_, err = FlatBottomedCut(2, bad, 2.9)
		refused(t, "edge height", err)
		_, err = FlatBottomedCut(2, 0.05, bad)
		refused(t, "thickness", err)
	}
	_, err := FlatBottomedCut(2.9, 0.05, 2.9)
	refused(t, "flat as wide as the runner", err)
}

func TestFlatCutMeaning(t *testing.T) {
	cut, err := FlatBottomedCut(2, 0.05, 2.9)
	sound(t, err)
	want := "2 mm flat, 0.05 mm edges bites like a hollow of 13.13 mm; 1/2 in is the nearest round one."
	if got := cut.Meaning(); got != want {
		t.Errorf("got %q, want %q", got, want)
	}
	dull, err := FlatBottomedCut(2, 0.005, 2.9)
	sound(t, err)
	if got := dull.Meaning(); strings.Contains(got, " in ") {
		t.Errorf("names an inch size that no shop grinds: %q", got)
	}
}
