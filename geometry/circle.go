package geometry

import (
	"fmt"
	"math"
)

// Point is a place in a plane.
type Point struct {
	X, Y Millimetre
}

// Circle is a circle in a plane.
type Circle struct {
	Radius  Millimetre `json:"radius_mm"`
	CentreX Millimetre `json:"centre_x_mm"`
	CentreY Millimetre `json:"centre_y_mm"`
}

// Distance is how far a point lies outside the circle; negative is inside.
func (c Circle) Distance(p Point) Millimetre {
	return Millimetre(math.Hypot(float64(p.X-c.CentreX), float64(p.Y-c.CentreY))) - c.Radius
}

func (c Circle) movedBy(p Point) Circle {
	return Circle{Radius: c.Radius, CentreX: c.CentreX + p.X, CentreY: c.CentreY + p.Y}
}

// straightEnough is the sag, as a part of the points' spread, below which they
// are taken to lie on a line: 1e-9 of 160 mm is far below any caliper.
const straightEnough = 1e-9

// errStraight is what points on a line come to.
func errStraight(n int) error {
	return fmt.Errorf("%d points on a straight line are %w: no circle passes them; check the points", n, ErrOutOfRange)
}

// ThreePointCircle is the circle through three points: its centre is as far
// from each. Points on a line, or two in one place, are an error.
func ThreePointCircle(a, b, c Point) (Circle, error) {
	if err := checkPoints([]Point{a, b, c}); err != nil {
		return Circle{}, err
	}
	bx, by := b.X-a.X, b.Y-a.Y
	cx, cy := c.X-a.X, c.Y-a.Y
	bb, cc := bx*bx+by*by, cx*cx+cy*cy
	twice := 2 * (bx*cy - by*cx)
	if twice.abs() <= straightEnough*max(bb, cc) {
		return Circle{}, errStraight(3)
	}
	x, y := (cy*bb-by*cc)/twice, (bx*cc-cx*bb)/twice
	radius := Millimetre(math.Hypot(float64(x), float64(y)))
	return Circle{Radius: radius, CentreX: a.X + x, CentreY: a.Y + y}, nil
}

// checkPoints wants three or more finite points.
func checkPoints(points []Point) error {
	if len(points) < 3 {
		return fmt.Errorf("%d points are %w: a circle needs three or more", len(points), ErrOutOfRange)
	}
	for _, p := range points {
		if err := requireFinite("x of a point", p.X); err != nil {
			return err
		}
		if err := requireFinite("y of a point", p.Y); err != nil {
			return err
		}
	}
	return nil
}

// centroid is the mean of the points, spread their root mean square distance
// from it.
func centroid(points []Point) (mean Point, spread Millimetre) {
	n := Millimetre(len(points))
	for _, p := range points {
		mean.X += p.X / n
		mean.Y += p.Y / n
	}
	sum := 0.0
	for _, p := range points {
		d := math.Hypot(float64(p.X-mean.X), float64(p.Y-mean.Y))
		sum += d * d
	}
	return mean, Millimetre(math.Sqrt(sum / float64(len(points))))
}
