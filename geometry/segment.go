package geometry

import (
	"cmp"
	"math"
)

// ChordLength is the width of a circle's segment, c = 2√(h(2r−h)), for
// 0 ≤ height ≤ 2·radius.
//
// Source: Machinery's Handbook, 31st ed., p. 79 (segment of a circle).
func ChordLength(radius, height Millimetre) (Millimetre, error) {
	if err := cmp.Or(requirePositive("radius", radius), requireNotNegative("segment height", height)); err != nil {
		return 0, err
	}
	if height > 2*radius {
		return 0, outOfRange("segment height", height, "it cannot pass the diameter, "+(2*radius).String())
	}
	return 2 * Millimetre(math.Sqrt(float64(height*(2*radius-height)))), nil
}

// SegmentRadius is the radius of the circle that a chord and the height of its
// segment belong to, r = (c² + 4h²)/8h, both above 0.
//
// Source: Machinery's Handbook, 31st ed., p. 79 (segment of a circle).
func SegmentRadius(chord, height Millimetre) (Millimetre, error) {
	if err := cmp.Or(requirePositive("chord", chord), requirePositive("segment height", height)); err != nil {
		return 0, err
	}
	return (chord*chord + 4*height*height) / (8 * height), nil
}

// SegmentHeight is the height of the smaller segment on a chord,
// h = r − √(r² − c²/4), for 0 < chord ≤ 2·radius. It is computed as
// (c²/4)/(r + √(r² − c²/4)), the same number without the cancellation that
// costs digits on a flat arc.
//
// Source: Machinery's Handbook, 31st ed., p. 79 (segment of a circle).
func SegmentHeight(radius, chord Millimetre) (Millimetre, error) {
	if err := cmp.Or(requirePositive("radius", radius), requirePositive("chord", chord)); err != nil {
		return 0, err
	}
	if chord > 2*radius {
		return 0, outOfRange("chord", chord, "it cannot pass the diameter, "+(2*radius).String())
	}
	half := chord / 2
	toChord := Millimetre(math.Sqrt(float64((radius - half) * (radius + half))))
	return half * half / (radius + toChord), nil
}
