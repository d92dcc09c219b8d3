package picture

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
