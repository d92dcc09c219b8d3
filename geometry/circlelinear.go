package geometry

import "math"

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
