package geometry

// HollowShape is a round hollow ground along a runner, seen across the steel.
//
// At each edge the hollow meets the straight side of the runner. The two angles
// say how, and add up to 90°:
//
//   - EdgeAngle is the angle of steel between the hollow and the side, that of
//     the wedge which cuts: 90° − asin(w/2R). A smaller one is sharper; flat
//     steel has 90°.
//   - BiteAngle is the slope of the hollow at the edge against flat steel:
//     asin(w/2R). A larger one bites more; flat steel has 0°.
//
// The trade speaks of more or less bite and means more of it for a deeper
// hollow, so the angle that grows with depth carries that name (common
// practice, no source). The formulas are plain circle geometry.
type HollowShape struct {
	Radius    Millimetre `json:"radius_mm"`      // of the hollow
	Thickness Millimetre `json:"thickness_mm"`   // of the runner, edge to edge
	Depth     Millimetre `json:"depth_mm"`       // middle of the hollow below the edges
	EdgeAngle Degree     `json:"edge_angle_deg"` // steel left at each edge
	BiteAngle Degree     `json:"bite_angle_deg"` // slope of the hollow at each edge
}

// Hollow is the shape that a wheel of a radius leaves in a runner, centred:
// depth R − √(R² − w²/4). Both lengths are above 0 and the thickness w is at
// most 2R; usual are 9.5–25.4 mm (3/8–1 in) on 2.8–3.0 mm (common practice, no
// source).
//
// Source of the depth: Machinery's Handbook, 31st ed., p. 79.
func Hollow(radius, thickness Millimetre) (HollowShape, error) {
	if err := requirePositive("hollow radius", radius); err != nil {
		return HollowShape{}, err
	}
	if err := requirePositive("runner thickness", thickness); err != nil {
		return HollowShape{}, err
	}
	if thickness > 2*radius {
		return HollowShape{}, outOfRange("hollow radius", radius,
			"give at least half the thickness, "+(thickness/2).String())
	}
	depth, err := SegmentHeight(radius, thickness)
	if err != nil {
		return HollowShape{}, err
	}
	bite := arcsine(float64(thickness / (2 * radius)))
	return HollowShape{
		Radius: radius, Thickness: thickness, Depth: depth,
		EdgeAngle: 90 - bite, BiteAngle: bite,
	}, nil
}

// HollowFromDepth is the hollow of a measured depth, R = (w² + 4d²)/8d, for
// 0 < depth ≤ thickness/2.
//
// Source: Machinery's Handbook, 31st ed., p. 79.
func HollowFromDepth(depth, thickness Millimetre) (HollowShape, error) {
	radius, err := SegmentRadius(thickness, depth)
	if err != nil {
		return HollowShape{}, err
	}
	if depth > thickness/2 {
		return HollowShape{}, outOfRange("hollow depth", depth,
			"a round hollow is at most half the thickness deep, "+(thickness/2).String())
	}
	return Hollow(radius, thickness)
}

// HollowFromBite is the hollow of a bite angle above 0° and below 90°,
// R = w/(2 sin β).
func HollowFromBite(bite Degree, thickness Millimetre) (HollowShape, error) {
	if err := requireAngle("bite angle", bite, 0, 90); err != nil {
		return HollowShape{}, err
	}
	if err := requirePositive("runner thickness", thickness); err != nil {
		return HollowShape{}, err
	}
	return Hollow(thickness/Millimetre(2*sine(bite)), thickness)
}

// Meaning says in one sentence what the hollow is to the skater, beside the
// hollows an eighth of an inch deeper and flatter. That more bite means less
// glide is common practice; Sports Engineering 13:39–46 (2010) finds friction
// rising as the radius falls.
func (h HollowShape) Meaning() string {
	flatter := NearestSixteenth(h.Radius + 2*sixteenth)
	deeper := NearestSixteenth(h.Radius - 2*sixteenth)
	sentence := FormatHollow(h.Radius) + " bites more than " + FormatHollow(flatter) + " and glides less"
	if deeper < h.Radius && 2*deeper >= h.Thickness {
		sentence += "; " + FormatHollow(deeper) + " would bite still more"
	}
	return sentence + "."
}
