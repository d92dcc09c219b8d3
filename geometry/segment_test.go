package geometry

import (
	"math"
	"testing"
)

// The two worked examples of Machinery's Handbook, 31st ed., p. 79; it cuts the
// chord, 59.8665, off after two decimals.
func TestSegmentOfTheHandbook(t *testing.T) {
	chord, err := ChordLength(60, 8)
	sound(t, err)
	near(t, "chord of r = 60, h = 8", Millimetre(math.Trunc(float64(chord)*100)/100), 59.86, 1e-12)
	radius, err := SegmentRadius(16, 6)
	sound(t, err)
	near(t, "radius of c = 16, h = 6", radius, 8+1.0/3, 1e-12)
}

// Table of segments of circles for radius 1, as handbooks print it: angle,
// height, chord (from memory).
func TestSegmentTableForRadiusOne(t *testing.T) {
	for _, row := range []struct {
		angle         Degree
		height, chord Millimetre
	}{
		{10, 0.00381, 0.17431},
		{30, 0.03407, 0.51764},
		{60, 0.13397, 1.00000},
		{90, 0.29289, 1.41421},
		{120, 0.50000, 1.73205},
		{180, 1.00000, 2.00000},
	} {
		near(t, "chord from angle", Millimetre(2*sine(row.angle/2)), row.chord, 5.1e-6)
		height, err := SegmentHeight(1, Millimetre(2*sine(row.angle/2)))
		sound(t, err)
		near(t, "height", height, row.height, 5.1e-6)
		chord, err := ChordLength(1, height)
		sound(t, err)
		near(t, "chord", chord, row.chord, 5.1e-6)
	}
}

func TestSegmentRoundTrip(t *testing.T) {
	for _, radius := range []Millimetre{0.5, 9.525, 12.7, 3352.8, 1e6} {
		for _, part := range []Millimetre{1e-4, 0.1, 0.7, 1.9999} {
			chord := radius * part
			height, err := SegmentHeight(radius, chord)
			sound(t, err)
			back, err := SegmentRadius(chord, height)
			sound(t, err)
			near(t, "radius back", back/radius, 1, 1e-12)
			same, err := ChordLength(radius, height)
			sound(t, err)
			near(t, "chord back", same/chord, 1, 1e-12)
		}
	}
}

func TestSegmentRefuses(t *testing.T) {
	for _, bad := range noLengths() {
		_, err := ChordLength(bad, 1)
		refused(t, "chord of a radius", err)
		_, err = SegmentRadius(bad, 1)
		refused(t, "radius of a chord", err)
		_, err = SegmentRadius(1, bad)
		refused(t, "radius of a height", err)
		_, err = SegmentHeight(bad, 1)
		refused(t, "height of a radius", err)
		_, err = SegmentHeight(1, bad)
		refused(t, "height of a chord", err)
	}
	_, err := ChordLength(10, 20.1)
	refused(t, "height past the diameter", err)
	_, err = ChordLength(10, -0.1)
	refused(t, "negative height", err)
	_, err = SegmentHeight(10, 20.1)
	refused(t, "chord past the diameter", err)
}
