package geometry

import (
	"math"
	"strings"
	"testing"
)

// The root of h·cos λ − g·sin λ = δ, found with 40 digits (mpmath 1.3.0).
func TestLeanAgainstLongArithmetic(t *testing.T) {
	for _, row := range []struct {
		thickness, indentation, width, clearance Millimetre
		want                                     Degree
	}{
		{2.9, 0, 20, 21, 67.846655262222},
		{2.9, 0.5, 20, 17, 61.794634068122},
		{4, 1, 30, 15, 46.197874680077},
	} {
		got, err := LeanToTouch(row.thickness, row.indentation, HolderCorner{row.width, row.clearance})
		sound(t, err)
		near(t, "lean", got.Angle, row.want, 1e-10)
	}
}

// Turned by the lean about the edge, the corner lies on the ice.
func TestLeanPutsTheCornerOnTheIce(t *testing.T) {
	for _, clearance := range []Millimetre{5, 12, 21} {
		for _, indentation := range []Millimetre{0, 0.3, 2} {
			got, err := LeanToTouch(2.9, indentation, HolderCorner{19, clearance})
			sound(t, err)
			sin, cos := math.Sincos(float64(got.Angle.Radians()))
			above := float64(clearance)*cos - float64((19-2.9)/2)*sin
			near(t, "corner above the edge", above, float64(indentation), 1e-12)
			back, err := ClearanceForLean(2.9, indentation, 19, got.Angle)
			sound(t, err)
			near(t, "clearance back", back, clearance, 1e-11)
		}
	}
}

// A holder as far out beside the edge as it is high touches at 45°.
func TestLeanOf45(t *testing.T) {
	got, err := LeanToTouch(3, 0, HolderCorner{Width: 23, Clearance: 10})
	sound(t, err)
	near(t, "lean", got.Angle, 45, 1e-12)
}

// Worn steel, a wider holder and soft ice all bring the touch earlier.
func TestLeanMonotone(t *testing.T) {
	last := Degree(90)
	for clearance := Millimetre(22); clearance > 1; clearance -= 0.5 {
		got, err := LeanToTouch(2.9, 0.5, HolderCorner{20, clearance})
		sound(t, err)
		wider, err := LeanToTouch(2.9, 0.5, HolderCorner{21, clearance})
		sound(t, err)
		softer, err := LeanToTouch(2.9, 0.6, HolderCorner{20, clearance})
		sound(t, err)
		if !(got.Angle < last && wider.Angle < got.Angle && softer.Angle < got.Angle) {
			t.Fatalf("lean does not shrink at clearance %v", clearance)
		}
		last = got.Angle
	}
}

// Of holder and boot the first to touch counts.
func TestLeanTakesTheFirstCorner(t *testing.T) {
	holder, boot := HolderCorner{20, 21}, HolderCorner{95, 62}
	got, err := LeanToTouch(2.9, 0, holder, boot)
	sound(t, err)
	alone, err := LeanToTouch(2.9, 0, boot)
	sound(t, err)
	if got.First != boot || got.Angle != alone.Angle {
		t.Errorf("a wide boot is not the first to touch: %+v", got)
	}
}

func TestLeanRefuses(t *testing.T) {
	for _, bad := range noLengths() {
		_, err := LeanToTouch(bad, 0, HolderCorner{20, 21})
		refused(t, "thickness", err)
		_, err = LeanToTouch(2.9, 0, HolderCorner{bad, 21})
		refused(t, "width", err)
		_, err = LeanToTouch(2.9, 0, HolderCorner{20, bad})
		refused(t, "clearance", err)
		_, err = ClearanceForLean(2.9, 0, bad, 45)
		refused(t, "width", err)
	}
	for _, bad := range noLengths()[:4] {
		_, err := LeanToTouch(2.9, bad, HolderCorner{20, 21})
		refused(t, "indentation", err)
		_, err = ClearanceForLean(2.9, bad, 20, 45)
		refused(t, "indentation", err)
		_, err = ClearanceForLean(2.9, 0, 20, Degree(bad))
		refused(t, "lean", err)
	}
	_, err := LeanToTouch(2.9, 0)
	refused(t, "no corner", err)
	_, err = LeanToTouch(2.9, 0, HolderCorner{2.9, 21})
	refused(t, "holder as narrow as the runner", err)
	_, err = LeanToTouch(2.9, 5, HolderCorner{20, 5})
	refused(t, "holder in the ice", err)
	_, err = ClearanceForLean(2.9, 0, 20, 90)
	refused(t, "lying on the ice", err)
}

func TestLeanMeaningDefers(t *testing.T) {
	got, err := LeanToTouch(2.9, 0, HolderCorner{20, 21})
	sound(t, err)
	if m := got.Meaning(); !strings.HasPrefix(m, "Leaning past 67° ") || !strings.HasSuffix(m, LeanCaution) {
		t.Errorf("got %q", m)
	}
}
