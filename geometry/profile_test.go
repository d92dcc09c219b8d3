package geometry

import (
	"math"
	"testing"
)

// threeRadii is 6 ft, 10 ft and 13 ft from heel to toe, level 5 mm behind the
// middle.
func threeRadii(t *testing.T) Profile {
	t.Helper()
	p, err := NewProfile(-5, Arc{feet(6), 90}, Arc{feet(10), 110}, Arc{feet(13), 80})
	sound(t, err)
	return p
}

// One radius is the segment of its circle.
func TestProfileOfOneRadius(t *testing.T) {
	p, err := NewProfile(0, Arc{feet(11), 280})
	sound(t, err)
	for x := Millimetre(1); x <= 140; x += 13 {
		want, err := SegmentHeight(feet(11), 2*x)
		sound(t, err)
		for _, station := range []Millimetre{x, -x} {
			got := p.riseAt(station)
			near(t, "rise", got, want, 1e-13)
		}
	}
}

// The curve has no step, no corner, and one radius within each arc: circles
// through three points of it, and through three points beside a joint.
func TestProfileIsTangentContinuous(t *testing.T) {
	p := threeRadii(t)
	slope := func(from, to Millimetre) float64 {
		a := p.riseAt(from)
		b := p.riseAt(to)
		return float64((b - a) / (to - from))
	}
	for _, joint := range []Millimetre{-50, 60} {
		before, after := slope(joint-1e-3, joint), slope(joint, joint+1e-3)
		near(t, "slope across a joint", after, before, 1e-6) // 1e-3/R is 5e-7
	}
	for station, radius := range map[Millimetre]Millimetre{-100: feet(6), 10: feet(10), 100: feet(13)} {
		var points [3]Point
		for i := range points {
			x := station + Millimetre(i-1)*20
			rise := p.riseAt(x)
			points[i] = Point{x, rise}
		}
		circle, err := ThreePointCircle(points[0], points[1], points[2])
		sound(t, err)
		near(t, "radius within an arc", circle.Radius/radius, 1, 1e-9)
	}
}

func TestProfileIsLowestAtNeutral(t *testing.T) {
	p := threeRadii(t)
	for x := Millimetre(-140); x <= 140; x += 0.5 {
		rise := p.riseAt(x)
		if rise < -1e-15 {
			t.Fatalf("steel at %v lies below the neutral station: %v", x, rise)
		}
	}
	rise := p.riseAt(-5)
	near(t, "rise at the neutral station", rise, 0, 1e-15)
}

// An arc cut in two is still the same arc.
func TestProfileCutInTwo(t *testing.T) {
	whole, err := NewProfile(12, Arc{feet(9), 280})
	sound(t, err)
	parts, err := NewProfile(12, Arc{feet(9), 30}, Arc{feet(9), 127}, Arc{feet(9), 123})
	sound(t, err)
	for x := Millimetre(-140); x <= 140; x += 7 {
		a := whole.riseAt(x)
		b := parts.riseAt(x)
		near(t, "rise", b, a, 1e-13)
	}
}

func TestProfileRefuses(t *testing.T) {
	for _, bad := range noLengths() {
		_, err := NewProfile(0, Arc{bad, 280})
		refused(t, "radius", err)
		_, err = NewProfile(0, Arc{feet(11), 100}, Arc{feet(9), bad})
		refused(t, "length", err)
	}
	for _, bad := range noNumbers() {
		_, err := NewProfile(bad, Arc{feet(11), 280})
		refused(t, "neutral station", err)
	}
	_, err := NewProfile(0)
	refused(t, "no radius", err)
	_, err = NewProfile(141, Arc{feet(11), 280})
	refused(t, "neutral station off the steel", err)
	_, err = NewProfile(0, Arc{139, 280})
	refused(t, "an arc that turns 90°", err)
	_, err = NewProfile(0, Arc{math.MaxFloat64, math.MaxFloat64}, Arc{math.MaxFloat64, math.MaxFloat64})
	refused(t, "endless steel", err)
	_, err = Profile{}.Contact(0, 0.05)
	refused(t, "contact of a profile that was not made", err)
}
