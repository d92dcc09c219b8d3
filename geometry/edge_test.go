package geometry

import (
	"math"
	"testing"
)

// √(R²−(w/2−o)²) − √(R²−(w/2+o)²) and the angles, computed with 40 digits
// (mpmath 1.3.0).
func TestEdgeLevelAgainstLongArithmetic(t *testing.T) {
	for _, want := range []EdgeLevel{
		{12.7, 2.9, 0.1, 0.022985679049915, 0.45412235203893, 7.0102696190728, 6.1020249149949},
		{15.875, 3.0, -0.25, -0.047462407568778, -0.90638959568212, 4.5161536273159, 6.3289328186801},
		{9.525, 4.0, 0.5, 0.21508602067948, 3.0779161184207, 15.216507068046, 9.0606748312042},
	} {
		got, err := EdgeLevelFromOffset(want.Radius, want.Thickness, want.Offset)
		sound(t, err)
		near(t, "difference", got.Difference, want.Difference, 1e-13)
		near(t, "angle on the square", got.SquareAngle, want.SquareAngle, 1e-11)
		near(t, "left bite", got.LeftBite, want.LeftBite, 1e-11)
		near(t, "right bite", got.RightBite, want.RightBite, 1e-11)
	}
}

// offsets steps from nearly one end of what a hollow allows to the other.
func offsets(radius, thickness Millimetre) []Millimetre {
	most := 0.999 * (radius - thickness/2)
	var all []Millimetre
	for part := Millimetre(-1); part <= 1; part += 0.125 {
		all = append(all, part*most, part*most*1e-6)
	}
	return all
}

func TestEdgeLevelRoundTrips(t *testing.T) {
	for _, radius := range []Millimetre{1.45, 9.525, 12.7, 25.4} {
		for _, offset := range offsets(radius, 2.9) {
			level, err := EdgeLevelFromOffset(radius, 2.9, offset)
			sound(t, err)
			byDifference, err := EdgeLevelFromDifference(radius, 2.9, level.Difference)
			sound(t, err)
			near(t, "offset from difference", byDifference.Offset, offset, 1e-10)
			bySquare, err := EdgeLevelFromSquare(radius, 2.9, level.SquareAngle)
			sound(t, err)
			near(t, "offset from square", bySquare.Offset, offset, 1e-10)
		}
	}
}

func TestEdgeLevelProperties(t *testing.T) {
	centred, err := EdgeLevelFromOffset(12.7, 2.9, 0)
	sound(t, err)
	hollow, err := Hollow(12.7, 2.9)
	sound(t, err)
	near(t, "difference when centred", centred.Difference, 0, 0)
	near(t, "bite when centred", centred.LeftBite, hollow.BiteAngle, 0)
	last := Millimetre(math.Inf(-1))
	for offset := Millimetre(-2); offset <= 2; offset += 0.05 {
		right, err := EdgeLevelFromOffset(12.7, 2.9, offset)
		sound(t, err)
		left, err := EdgeLevelFromOffset(12.7, 2.9, -offset)
		sound(t, err)
		near(t, "mirror", left.Difference, -right.Difference, 1e-15)
		if right.Difference <= last {
			t.Fatalf("difference does not grow with the offset at %v", offset)
		}
		last = right.Difference
	}
	tiny, err := EdgeLevelFromOffset(12.7, 2.9, 1e-7)
	sound(t, err)
	near(t, "small offsets: w·o/R, slopes steeper by 1/cos", tiny.Difference/(2.9*1e-7/12.7)*Millimetre(cosine(hollow.BiteAngle)), 1, 1e-9)
}

func TestSquareGap(t *testing.T) {
	level, err := EdgeLevelFromDifference(12.7, 2.9, 0.0254)
	sound(t, err)
	gap, err := level.SquareGap(29)
	sound(t, err)
	near(t, "ten widths out, ten times the difference", gap, 0.254, 1e-12)
	_, err = level.SquareGap(-1)
	refused(t, "arm", err)
}

func TestEdgeLevelMeaning(t *testing.T) {
	for offset, want := range map[Millimetre]string{
		0.1:   "The left edge is 0.023 mm high: it bites more and the right one slips; move the wheel 0.10 mm to the left.",
		-0.1:  "The right edge is 0.023 mm high: it bites more and the left one slips; move the wheel 0.10 mm to the right.",
		0.005: "The edges are level: both sides bite alike.",
	} {
		level, err := EdgeLevelFromOffset(12.7, 2.9, offset)
		sound(t, err)
		if got := level.Meaning(); got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}

func TestEdgeLevelRefuses(t *testing.T) {
	for _, bad := range noLengths() {
		_, err := EdgeLevelFromOffset(bad, 2.9, 0)
		refused(t, "radius", err)
		_, err = EdgeLevelFromDifference(12.7, bad, 0)
		refused(t, "thickness", err)
	}
	for _, bad := range noNumbers() {
		_, err := EdgeLevelFromOffset(12.7, 2.9, bad)
		refused(t, "offset", err)
		_, err = EdgeLevelFromDifference(12.7, 2.9, bad)
		refused(t, "difference", err)
		_, err = EdgeLevelFromSquare(12.7, 2.9, Degree(bad))
		refused(t, "angle", err)
	}
	_, err := EdgeLevelFromOffset(12.7, 2.9, 11.26)
	refused(t, "wheel off the steel", err)
	_, err = EdgeLevelFromDifference(12.7, 2.9, 30)
	refused(t, "difference past the wheel", err)
	_, err = EdgeLevelFromSquare(12.7, 2.9, 90)
	refused(t, "square angle of 90°", err)
}
