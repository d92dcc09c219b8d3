package geometry

import "math"

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
