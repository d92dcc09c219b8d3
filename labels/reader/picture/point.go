package picture

import "math"

// Point is a place in a picture, in pixels.
type Point struct{ X, Y float64 }

// Plus is p moved by q.
func (p Point) Plus(q Point) Point { return Point{p.X + q.X, p.Y + q.Y} }

// Minus is the way from q to p.
func (p Point) Minus(q Point) Point { return Point{p.X - q.X, p.Y - q.Y} }

// Times is p stretched by a factor.
func (p Point) Times(factor float64) Point { return Point{p.X * factor, p.Y * factor} }

// Length is the distance from the origin.
func (p Point) Length() float64 { return math.Hypot(p.X, p.Y) }

// Cross is positive where q lies clockwise from p as seen on a screen (y downwards).
func (p Point) Cross(q Point) float64 { return p.X*q.Y - p.Y*q.X }

// Dot is the scalar product of p and q.
func (p Point) Dot(q Point) float64 { return p.X*q.X + p.Y*q.Y }

// Quad is four corners, clockwise as seen on a screen: the top left of the thing
// itself first, whichever way it is turned in the picture.
type Quad [4]Point

// Center is the mean of the corners.
func (q Quad) Center() Point {
	return q[0].Plus(q[1]).Plus(q[2]).Plus(q[3]).Times(0.25)
}

// Times is the quad in a picture that is larger by a factor.
func (q Quad) Times(factor float64) Quad {
	for i := range q {
		q[i] = q[i].Times(factor)
	}
	return q
}

// Convex tells whether the corners really run clockwise around a convex area.
func (q Quad) Convex() bool {
	for i := range q {
		a, b, c := q[i], q[(i+1)%4], q[(i+2)%4]
		if !(b.Minus(a).Cross(c.Minus(b)) > 0) {
			return false
		}
	}
	return true
}

// Contains tells whether p lies inside a convex quad.
func (q Quad) Contains(p Point) bool {
	for i := range q {
		if q[(i+1)%4].Minus(q[i]).Cross(p.Minus(q[i])) < 0 {
			return false
		}
	}
	return true
}

// Homography carries points of a flat thing to where a camera sees them.
type Homography struct {
	xu, xv, x1 float64
	yu, yv, y1 float64
	wu, wv     float64
}

// OntoQuad carries a rectangle of the given width and height, its top left corner
// at the origin, onto four corners. Corners in line give a map of no use, never a
// panic. Formula: P. Heckbert, Fundamentals of Texture Mapping and Image Warping
// (1989), section 2.2.3.
func OntoQuad(width, height float64, q Quad) Homography {
	sum := q[0].Minus(q[1]).Plus(q[2]).Minus(q[3])
	d1, d2 := q[1].Minus(q[2]), q[3].Minus(q[2])
	det := d1.Cross(d2)
	g, h := sum.Cross(d2)/det, d1.Cross(sum)/det
	return Homography{
		xu: (q[1].X - q[0].X + g*q[1].X) / width,
		xv: (q[3].X - q[0].X + h*q[3].X) / height,
		x1: q[0].X,
		yu: (q[1].Y - q[0].Y + g*q[1].Y) / width,
		yv: (q[3].Y - q[0].Y + h*q[3].Y) / height,
		y1: q[0].Y,
		wu: g / width,
		wv: h / height,
	}
}

// At is where the point (u, v) of the thing is seen.
func (m *Homography) At(u, v float64) Point {
	w := 1 / (m.wu*u + m.wv*v + 1)
	return Point{(m.xu*u + m.xv*v + m.x1) * w, (m.yu*u + m.yv*v + m.y1) * w}
}
