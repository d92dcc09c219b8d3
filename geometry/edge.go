package geometry

import (
	"fmt"
	"math"
)

// EdgeLevel says how far the two edges of a runner are from level, in the three
// ways a bench meets it. Left and right are as seen with the edges up, from the
// heel. Positive means that the left edge is high and the wheel sat to the
// right.
type EdgeLevel struct {
	Radius      Millimetre `json:"radius_mm"`            // of the hollow
	Thickness   Millimetre `json:"thickness_mm"`         // of the runner
	Offset      Millimetre `json:"offset_mm"`            // wheel's middle to the right of the steel's
	Difference  Millimetre `json:"difference_mm"`        // left edge minus right edge
	SquareAngle Degree     `json:"square_angle_deg"`     // bar across both edges, out of square with the side
	LeftBite    Degree     `json:"left_bite_angle_deg"`  // slope of the hollow at the left edge
	RightBite   Degree     `json:"right_bite_angle_deg"` // and at the right edge
}

// EdgeLevelFromOffset is what a wheel set off the middle of the steel leaves:
// difference √(R²−(w/2−o)²) − √(R²−(w/2+o)²), nearly w·o/R. The offset is
// within ±(R − w/2), so that the hollow reaches both edges; R and w as for
// Hollow.
func EdgeLevelFromOffset(radius, thickness, offset Millimetre) (EdgeLevel, error) {
	if _, err := Hollow(radius, thickness); err != nil {
		return EdgeLevel{}, err
	}
	if err := requireFinite("wheel offset", offset); err != nil {
		return EdgeLevel{}, err
	}
	if offset.abs() > radius-thickness/2 {
		return EdgeLevel{}, outOfRange("wheel offset", offset,
			"the hollow would miss an edge: at most "+(radius-thickness/2).String())
	}
	left, right := thickness/2+offset, thickness/2-offset
	rise := func(x Millimetre) Millimetre { return Millimetre(math.Sqrt(float64((radius - x) * (radius + x)))) }
	// √a − √b as (a−b)/(√a+√b): a−b is 2wo exactly, and no digits cancel.
	difference := Millimetre(0)
	if offset != 0 {
		difference = 2 * thickness * offset / (rise(right) + rise(left))
	}
	return EdgeLevel{
		Radius: radius, Thickness: thickness, Offset: offset, Difference: difference,
		SquareAngle: arctangent(difference, thickness),
		LeftBite:    arcsine(float64(left / radius)), RightBite: arcsine(float64(right / radius)),
	}, nil
}

// EdgeLevelFromDifference finds the wheel offset from the height of the left
// edge above the right. The line across the edges is a chord of the wheel's
// circle, of length c = √(w²+d²) and leaning by θ = atan(d/w); the circle's
// middle lies √(R²−c²/4) from it, so o = √(R²−c²/4)·sin θ. Needs c ≤ 2R.
func EdgeLevelFromDifference(radius, thickness, difference Millimetre) (EdgeLevel, error) {
	if _, err := Hollow(radius, thickness); err != nil {
		return EdgeLevel{}, err
	}
	if err := requireFinite("edge difference", difference); err != nil {
		return EdgeLevel{}, err
	}
	half := math.Hypot(float64(thickness), float64(difference)) / 2
	if half > float64(radius) {
		return EdgeLevel{}, outOfRange("edge difference", difference, "no hollow of "+radius.String()+" does that: check both")
	}
	toChord := math.Sqrt((float64(radius) - half) * (float64(radius) + half))
	offset := Millimetre(toChord * float64(difference) / (2 * half))
	level, err := EdgeLevelFromOffset(radius, thickness, offset)
	if err != nil {
		return EdgeLevel{}, fmt.Errorf("edge difference of %v: %w", difference, err)
	}
	return level, nil
}

// EdgeLevelFromSquare finds the wheel offset from the angle by which a bar on
// both edges is out of square with the side of the runner, within ±90°; the
// edge difference is w·tan of it.
func EdgeLevelFromSquare(radius, thickness Millimetre, angle Degree) (EdgeLevel, error) {
	if err := requireAngle("angle on the square", angle, -90, 90); err != nil {
		return EdgeLevel{}, err
	}
	return EdgeLevelFromDifference(radius, thickness, thickness*Millimetre(sine(angle)/cosine(angle)))
}

// SquareGap is how far the end of a bar laid across the edges stands from
// square at an arm's length from the steel, arm·d/w: the edge difference made
// large enough to see. The arm is 0 or more.
func (e EdgeLevel) SquareGap(arm Millimetre) (Millimetre, error) {
	if err := requireNotNegative("arm of the square", arm); err != nil {
		return 0, err
	}
	return arm * e.Difference / e.Thickness, nil
}

// levelEnough is the difference that a square at the bench no longer shows
// (common practice, no source).
const levelEnough Millimetre = 0.005

// Meaning says in one sentence what the skater feels and which way to move the
// wheel.
func (e EdgeLevel) Meaning() string {
	high, low := "left", "right"
	if e.Difference < 0 {
		high, low = low, high
	}
	if e.Difference.abs() < levelEnough {
		return "The edges are level: both sides bite alike."
	}
	return fmt.Sprintf("The %s edge is %.3f mm high: it bites more and the %s one slips; move the wheel %.2f mm to the %s.",
		high, float64(e.Difference.abs()), low, float64(e.Offset.abs()), high)
}
