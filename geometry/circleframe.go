package geometry

import "math"

// bendFrame is a place on the first guess of the circle, beside the points, with
// u along the circle, v towards its centre, and the points' spread as unit. In
// it the circle is A(u²+v²) + E(u·sin θ − v·cos θ) + D = 0 with E = √(1+4AD):
// A is half the curvature, D the distance of the origin outside the circle
// (to first order), θ the turn of the tangent.
type bendFrame struct {
	origin Point
	toward Point // unit vector to the first centre
	unit   Millimetre
	start  float64 // A of the first guess
	points [][2]float64
}

// startingFrames are the linear circle and, since scattered points can have more
// than one dip in the sum of squares, the line through the points bent a little
// either way.
func startingFrames(points []Point) ([]bendFrame, error) {
	linear, err := LinearCircle(points)
	if err != nil {
		return nil, err
	}
	mean, spread := centroid(points)
	toCentre := Point{X: linear.CentreX - mean.X, Y: linear.CentreY - mean.Y}
	distance := Millimetre(math.Hypot(float64(toCentre.X), float64(toCentre.Y)))
	toward := Point{X: 1}
	if distance > 0 {
		toward = Point{X: toCentre.X / distance, Y: toCentre.Y / distance}
	}
	onCircle := Point{
		X: linear.CentreX - linear.Radius*toward.X,
		Y: linear.CentreY - linear.Radius*toward.Y,
	}
	square := squareToLine(points, mean)
	return []bendFrame{
		frameAt(onCircle, toward, spread, points).bent(float64(spread / (2 * linear.Radius))),
		frameAt(mean, square, spread, points).bent(slightBend),
		frameAt(mean, square, spread, points).bent(-slightBend),
	}, nil
}

// slightBend starts the search from a circle of ten times the points' spread.
const slightBend = 0.05

// squareToLine is the unit vector square to the line that lies closest to the
// points: across the long axis of their scatter.
func squareToLine(points []Point, mean Point) Point {
	var xx, xy, yy float64
	for _, p := range points {
		x, y := float64(p.X-mean.X), float64(p.Y-mean.Y)
		xx, xy, yy = xx+x*x, xy+x*y, yy+y*y
	}
	sin, cos := math.Sincos(math.Atan2(2*xy, xx-yy) / 2)
	return Point{X: Millimetre(-sin), Y: Millimetre(cos)}
}

func frameAt(origin, toward Point, unit Millimetre, points []Point) bendFrame {
	f := bendFrame{origin: origin, toward: toward, unit: unit}
	for _, p := range points {
		x, y := (p.X-origin.X)/unit, (p.Y-origin.Y)/unit
		f.points = append(f.points, [2]float64{float64(x*toward.Y - y*toward.X), float64(x*toward.X + y*toward.Y)})
	}
	return f
}

func (f bendFrame) bent(start float64) bendFrame {
	f.start = start
	return f
}

// circle goes back from A, D, θ to a circle; false when it is straight.
func (f bendFrame) circle(bend vector3) (Circle, bool) {
	a, d, turn := bend[0], bend[1], bend[2]
	if !(math.Abs(a) > straightEnough) {
		return Circle{}, false
	}
	reach := math.Sqrt(1+4*a*d) / (2 * a)
	u, v := Millimetre(-reach*math.Sin(turn)), Millimetre(reach*math.Cos(turn))
	centre := Point{
		X: f.origin.X + f.unit*(u*f.toward.Y+v*f.toward.X),
		Y: f.origin.Y + f.unit*(v*f.toward.Y-u*f.toward.X),
	}
	return Circle{Radius: f.unit * Millimetre(1/(2*math.Abs(a)))}.movedBy(centre), true
}
