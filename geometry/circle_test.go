package geometry

import (
	"math"
	"testing"
)

// The Pythagorean triangle 3-4-5 stands in a circle of 2.5 around the middle of
// its longest side (Thales).
func TestThreePointCircleOfARightTriangle(t *testing.T) {
	got, err := ThreePointCircle(Point{0, 0}, Point{3, 0}, Point{0, 4})
	sound(t, err)
	near(t, "radius", got.Radius, 2.5, 1e-15)
	near(t, "centre x", got.CentreX, 1.5, 1e-15)
	near(t, "centre y", got.CentreY, 2, 1e-15)
}

// Circumradius abc/4K with Heron's area: for 13-14-15, 65/8.
func TestThreePointCircleByHeron(t *testing.T) {
	got, err := ThreePointCircle(Point{0, 0}, Point{14, 0}, Point{5, 12})
	sound(t, err)
	near(t, "radius of the 13-14-15 triangle", got.Radius, 65./8, 1e-14)
}

// The order of the points and where they lie in the plane do not matter.
func TestThreePointCircleMoves(t *testing.T) {
	a, b, c := Point{-80, -20.2}, Point{0, -21.5}, Point{80, -20.6}
	want, err := ThreePointCircle(a, b, c)
	sound(t, err)
	other, err := ThreePointCircle(c, a, b)
	sound(t, err)
	near(t, "radius in another order", other.Radius, want.Radius, 1e-8)
	shift := Point{1000, -500}
	moved, err := ThreePointCircle(Point{a.X + shift.X, a.Y + shift.Y}, Point{b.X + shift.X, b.Y + shift.Y}, Point{c.X + shift.X, c.Y + shift.Y})
	sound(t, err)
	near(t, "radius elsewhere", moved.Radius, want.Radius, 1e-7)
	near(t, "centre elsewhere", moved.CentreX, want.CentreX+shift.X, 1e-7)
}

func TestCircleRefuses(t *testing.T) {
	_, err := ThreePointCircle(Point{0, 0}, Point{1, 1}, Point{2, 2})
	refused(t, "three points on a line", err)
	_, err = ThreePointCircle(Point{1, 1}, Point{1, 1}, Point{2, 5})
	refused(t, "two points in one place", err)
	_, err = ThreePointCircle(Point{1, 1}, Point{1, 1}, Point{1, 1})
	refused(t, "three points in one place", err)
	for _, bad := range noNumbers() {
		_, err = ThreePointCircle(Point{bad, 0}, Point{1, 0}, Point{0, 1})
		refused(t, "x of a point", err)
		_, err = LinearCircle([]Point{{0, bad}, {1, 0}, {0, 1}})
		refused(t, "y of a point", err)
		_, err = FitCircle([]Point{{0, 0}, {1, 0}, {0, 1}, {2, bad}})
		refused(t, "y of a point", err)
	}
	for n := range 3 {
		_, err = FitCircle(make([]Point, n))
		refused(t, "too few points", err)
		_, err = LinearCircle(make([]Point, n))
		refused(t, "too few points", err)
	}
	line := []Point{{0, 0}, {1, 2}, {2, 4}, {3, 6}, {7, 14}}
	_, err = FitCircle(line)
	refused(t, "points on a line", err)
	_, err = LinearCircle(line)
	refused(t, "points on a line", err)
	_, err = FitCircle(make([]Point, 5))
	refused(t, "points in one place", err)
}

func TestCircleDistance(t *testing.T) {
	c := Circle{Radius: 5, CentreX: 1, CentreY: 1}
	near(t, "outside", c.Distance(Point{1, 8}), 2, 1e-15)
	near(t, "inside", c.Distance(Point{1, 1}), -5, 1e-15)
	if !math.IsNaN(float64(c.Distance(Point{Millimetre(math.NaN()), 0}))) {
		t.Error("a distance to nowhere")
	}
}
