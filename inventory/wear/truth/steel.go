package truth

import (
	"math"
	"math/rand/v2"

	"steeltally/geometry"
)

// Runner is one piece of steel as it truly is.
type Runner struct {
	LossPerPass float64             // mean loss in mm
	New         geometry.Millimetre // true height when new
	Height      geometry.Millimetre // true height now
	Passes      int                 // passes since new
}

// Pair is the left and the right runner of one set.
type Pair struct{ Left, Right Runner }

// NewPair draws a set of new steel for a player.
func (c Club) NewPair(r *rand.Rand, p Player) Pair {
	pair := p.LogWear + c.PairSpread*r.NormFloat64()
	return Pair{Left: c.NewRunner(r, pair), Right: c.NewRunner(r, pair)}
}

// NewRunner draws one new runner of a pair whose mean log loss per pass (mm)
// is given.
func (c Club) NewRunner(r *rand.Rand, pairLogWear float64) Runner {
	height := c.NewHeight + c.NewSpread*geometry.Millimetre(r.NormFloat64())
	return Runner{
		LossPerPass: math.Exp(pairLogWear + c.SideSpread*r.NormFloat64()),
		New:         height,
		Height:      height,
	}
}

// Grind takes a number of passes, 1 or more, off one runner.
func (c Club) Grind(r *rand.Rand, steel *Runner, passes int) {
	steel.lose(passes, c.unevenness(passes)*r.NormFloat64())
}

// GrindPair takes passes off both runners of a pair, the same number left and
// right; part of the unevenness is common to both.
func (c Club) GrindPair(r *rand.Rand, pair *Pair, passes int) {
	spread := c.unevenness(passes)
	shared := math.Sqrt(c.SharedShare) * spread * r.NormFloat64()
	own := math.Sqrt(1-c.SharedShare) * spread
	pair.Left.lose(passes, shared+own*r.NormFloat64())
	pair.Right.lose(passes, shared+own*r.NormFloat64())
}

// unevenness is the standard deviation of a grind's loss in units of the loss
// per pass: variances of passes add up.
func (c Club) unevenness(passes int) float64 {
	return c.GrindSpread * math.Sqrt(float64(c.UsualPasses)*float64(passes))
}

// lose takes off the mean loss of the passes and a deviation counted in passes.
// A grind cannot add steel.
func (s *Runner) lose(passes int, deviation float64) {
	loss := s.LossPerPass * math.Max(0, float64(passes)+deviation)
	s.Height -= geometry.Millimetre(loss)
	s.Passes += passes
}
