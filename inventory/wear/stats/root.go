package stats

import (
	"errors"
	"math"
)

// ErrNoRoot says that a function does not change its sign where it was sought.
var ErrNoRoot = errors.New("no change of sign between the bounds")

const rootSteps = 200 // bisection alone needs about 60 for full precision

// Root finds x in [low, high] with f(x) = 0, to a relative 1e-14 or an
// absolute tolerance, whichever is larger. f must have opposite signs at the
// bounds. Method: Dekker and Brent (R. P. Brent, Algorithms for Minimization
// without Derivatives, 1973, ch. 4); gonum has no root finder in one unknown.
func Root(f func(float64) float64, low, high, tolerance float64) (float64, error) {
	b := bracket{a: low, b: high, fa: f(low), fb: f(high)}
	if b.fa*b.fb > 0 || math.IsNaN(b.fa) || math.IsNaN(b.fb) {
		return 0, ErrNoRoot
	}
	b.c, b.fc = b.a, b.fa
	b.step = b.b - b.a
	b.last = b.step
	for range rootSteps {
		b.arrange()
		half, close := (b.c-b.b)/2, 0.5*tolerance+5e-15*math.Abs(b.b)
		if b.fb == 0 || math.Abs(half) <= close {
			break
		}
		b.choose(half, close)
		b.a, b.fa = b.b, b.fb
		if math.Abs(b.step) > close {
			b.b += b.step
		} else {
			b.b += math.Copysign(close, half)
		}
		b.fb = f(b.b)
	}
	return b.b, nil
}

// bracket keeps the best point b, the opposite bound c and the point before a.
type bracket struct {
	a, b, c, fa, fb, fc float64
	step, last          float64
}

// arrange makes c the bound opposite b, and b the better of the two.
func (k *bracket) arrange() {
	if (k.fb > 0) == (k.fc > 0) {
		k.c, k.fc = k.a, k.fa
		k.step = k.b - k.a
		k.last = k.step
	}
	if math.Abs(k.fc) < math.Abs(k.fb) {
		k.a, k.b, k.c = k.b, k.c, k.b
		k.fa, k.fb, k.fc = k.fb, k.fc, k.fb
	}
}

// choose takes the interpolated step where it is trustworthy, else halves.
func (k *bracket) choose(half, close float64) {
	before := k.last
	k.last = k.step
	if math.Abs(before) < close || math.Abs(k.fa) <= math.Abs(k.fb) {
		k.step, k.last = half, half
		return
	}
	p, q := k.interpolate(half)
	if 2*p < math.Min(3*half*q-math.Abs(close*q), math.Abs(before*q)) {
		k.step = p / q
		return
	}
	k.step, k.last = half, half
}

// interpolate gives a secant or inverse quadratic step as a fraction p/q, p ≥ 0.
func (k *bracket) interpolate(half float64) (p, q float64) {
	s := k.fb / k.fa
	if k.a == k.c {
		p, q = 2*half*s, 1-s
	} else {
		u, v := k.fa/k.fc, k.fb/k.fc
		p = s * (2*half*u*(u-v) - (k.b-k.a)*(v-1))
		q = (u - 1) * (v - 1) * (s - 1)
	}
	if p > 0 {
		return p, -q
	}
	return -p, q
}
