package geometry

import (
	"fmt"
	"math"
)

// CircleFit is a circle fitted to points and how well they lie on it.
type CircleFit struct {
	Circle
	Points   int        `json:"points"`
	Residual Millimetre `json:"residual_mm"` // root mean square distance of the points from it
}

// FitCircle is the circle with the least sum of squared distances to the points,
// measured square to the circle (the geometric fit). Three points give the
// circle through them. Three or more points, not on a line.
//
// The problem is that of W. Gander, G. H. Golub, R. Strebel, "Least-squares
// fitting of circles and ellipses", BIT 34 (1994), 558–578. The unknowns are
// those of N. Chernov, C. Lesort, "Least squares fitting of circles", Journal of
// Mathematical Imaging and Vision 23 (2005), 239–252, which stay tame when the
// arc is nearly straight, as a runner is. The search is Levenberg and
// Marquardt's, from the linear circle and from the line through the points.
func FitCircle(points []Point) (CircleFit, error) {
	if len(points) == 3 {
		circle, err := ThreePointCircle(points[0], points[1], points[2])
		if err != nil {
			return CircleFit{}, err
		}
		return CircleFit{Circle: circle, Points: 3}, nil
	}
	best := CircleFit{Residual: Millimetre(math.Inf(1))}
	starts, err := startingFrames(points)
	if err != nil {
		return CircleFit{}, err
	}
	for _, frame := range starts {
		circle, ok := frame.circle(frame.refined(frame.searched(vector3{frame.start, 0, 0})))
		fit := CircleFit{Circle: circle, Points: len(points), Residual: rootMeanSquare(circle, points)}
		if ok && fit.Residual < best.Residual {
			best = fit
		}
	}
	if best.Points == 0 {
		return CircleFit{}, errStraight(len(points))
	}
	return best, nil
}

// Meaning says in one sentence how far the points bear the radius out.
func (f CircleFit) Meaning() string {
	radius := FormatProfile(f.Radius)
	if f.Points == 3 {
		return fmt.Sprintf("A radius of %s: three points always lie on one circle, a fourth would check it.", radius)
	}
	return fmt.Sprintf("A radius of %s; the %d points lie %.2f mm off it on the whole.", radius, f.Points, float64(f.Residual))
}

func rootMeanSquare(c Circle, points []Point) Millimetre {
	sum := 0.0
	for _, p := range points {
		d := float64(c.Distance(p))
		sum += d * d
	}
	return Millimetre(math.Sqrt(sum / float64(len(points))))
}

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

const (
	searchSteps = 500   // far more than any set of points here needs
	finestStep  = 1e-15 // in units of the points' spread: as far as the numbers go
	maxDamping  = 1e12
)

// normal holds the normal equations of the distances at one circle.
type normal struct {
	squares  float64 // sum of the squared distances
	matrix   matrix3
	gradient vector3
}

// normalAt sums the points at A, D, θ; false when that is no circle. With
// P = A(u²+v²) + E(u·sin θ − v·cos θ) + D and Q = √(1+4AP), a point's distance
// is 2P/(1+Q), and the derivatives follow.
func (f bendFrame) normalAt(bend vector3) (normal, bool) {
	a, d := bend[0], bend[1]
	sin, cos := math.Sincos(bend[2])
	e := math.Sqrt(1 + 4*a*d)
	if !(e > 0) {
		return normal{}, false
	}
	var sum normal
	for _, p := range f.points {
		across := p[0]*sin - p[1]*cos
		square := p[0]*p[0] + p[1]*p[1]
		height := a*square + e*across + d
		q := math.Sqrt(1 + 4*a*height)
		if !(q > 0) {
			return normal{}, false
		}
		distance := 2 * height / (1 + q)
		sum.add(distance, vector3{
			(square + 2*d/e*across - distance*distance) / q,
			(2*a/e*across + 1) / q,
			e * (p[0]*cos + p[1]*sin) / q,
		})
	}
	return sum, isFinite(sum.squares)
}

func (n *normal) add(distance float64, slope vector3) {
	n.squares += distance * distance
	for i := range 3 {
		n.gradient[i] += slope[i] * distance
		for k := range 3 {
			n.matrix[i][k] += slope[i] * slope[k]
		}
	}
}

// step is the move that the normal equations ask for, shortened by a damping.
func (n normal) step(damping float64) (vector3, bool) {
	m, want := n.matrix, n.gradient
	for i := range 3 {
		m[i][i] *= 1 + damping
		want[i] = -want[i]
	}
	return m.solve(want)
}

// searched goes downhill by Levenberg and Marquardt's rule until no step makes
// the sum of squares smaller.
func (f bendFrame) searched(bend vector3) vector3 {
	here, ok := f.normalAt(bend)
	if !ok {
		return bend
	}
	damping := 1e-3
	for range searchSteps {
		step, solved := here.step(damping)
		next := bend.plus(step)
		there, ok := f.normalAt(next)
		if solved && ok && there.squares < here.squares {
			bend, here, damping = next, there, damping/10
		} else {
			damping *= 10
		}
		if step.largest() < finestStep || damping > maxDamping {
			break
		}
	}
	return bend
}

// refined adds undamped steps as long as each is shorter than the last: near the
// least sum the sum itself is too flat to steer by, its slope is not.
func (f bendFrame) refined(bend vector3) vector3 {
	last := math.Inf(1)
	for range searchSteps {
		here, ok := f.normalAt(bend)
		if !ok {
			return bend
		}
		step, ok := here.step(0)
		if !ok || step.largest() >= last || step.largest() < finestStep {
			return bend
		}
		bend, last = bend.plus(step), step.largest()
	}
	return bend
}
