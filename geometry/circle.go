package geometry

import (
	"cmp"
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
		if err := cmp.Or(requireFinite("x of a point", p.X), requireFinite("y of a point", p.Y)); err != nil {
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

// LinearCircle is the circle that minimises Σ(dᵢ² − R²)², d the distances from
// its centre: a linear system, solved at once. It comes out too small on a short
// arc with measuring errors; FitCircle does not. Three or more points, not on a
// line.
//
// Source: I. Kåsa, "A curve fitting procedure and its error analysis", IEEE
// Transactions on Instrumentation and Measurement 25 (1976), 8–14.
func LinearCircle(points []Point) (Circle, error) {
	if err := checkPoints(points); err != nil {
		return Circle{}, err
	}
	mean, spread := centroid(points)
	if spread == 0 {
		return Circle{}, errStraight(len(points))
	}
	var xx, xy, yy, xz, yz, z float64
	for _, p := range points {
		x, y := float64((p.X-mean.X)/spread), float64((p.Y-mean.Y)/spread)
		square := x*x + y*y
		xx, xy, yy = xx+x*x, xy+x*y, yy+y*y
		xz, yz, z = xz+x*square, yz+y*square, z+square
	}
	determinant := xx*yy - xy*xy
	if math.Sqrt(math.Abs(determinant)) <= straightEnough*z {
		return Circle{}, errStraight(len(points))
	}
	a := (xz*yy - yz*xy) / (2 * determinant)
	b := (yz*xx - xz*xy) / (2 * determinant)
	radius := math.Sqrt(z/float64(len(points)) + a*a + b*b)
	scaled := Circle{Radius: spread * Millimetre(radius), CentreX: spread * Millimetre(a), CentreY: spread * Millimetre(b)}
	return scaled.movedBy(mean), nil
}

// vector3 and matrix3 are the three unknowns of a circle and their normal
// equations.
type (
	vector3 [3]float64
	matrix3 [3]vector3
)

// solve finds x with m·x = v by Gauss's elimination, largest pivot first; false
// when there is no one answer.
func (m matrix3) solve(v vector3) (vector3, bool) {
	for column := range 3 {
		pivot := column
		for row := column + 1; row < 3; row++ {
			if math.Abs(m[row][column]) > math.Abs(m[pivot][column]) {
				pivot = row
			}
		}
		m[column], m[pivot] = m[pivot], m[column]
		v[column], v[pivot] = v[pivot], v[column]
		if m[column][column] == 0 {
			return vector3{}, false
		}
		for row := column + 1; row < 3; row++ {
			factor := m[row][column] / m[column][column]
			for k := column; k < 3; k++ {
				m[row][k] -= factor * m[column][k]
			}
			v[row] -= factor * v[column]
		}
	}
	return m.backSubstitute(v)
}

func (m matrix3) backSubstitute(v vector3) (vector3, bool) {
	for row := 2; row >= 0; row-- {
		for k := row + 1; k < 3; k++ {
			v[row] -= m[row][k] * v[k]
		}
		v[row] /= m[row][row]
		if !isFinite(v[row]) {
			return vector3{}, false
		}
	}
	return v, true
}

func (v vector3) plus(step vector3) vector3 {
	return vector3{v[0] + step[0], v[1] + step[1], v[2] + step[2]}
}

func (v vector3) largest() float64 {
	return max(math.Abs(v[0]), math.Abs(v[1]), math.Abs(v[2]))
}

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
