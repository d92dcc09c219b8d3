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

// Caliper is how a club's caliper reads: all in mm.
type Caliper struct {
	Spread     float64 // standard deviation of a sound reading
	Step       float64 // readings are rounded to this; 0 leaves them as they are
	SlipSpread float64 // standard deviation that a slip adds
	WildShare  float64 // share of the bad readings that are wrong altogether: any height of steel
}

// Measure reads a true height.
func (c Caliper) Measure(r *rand.Rand, height geometry.Millimetre) geometry.Millimetre {
	return c.round(float64(height) + c.Spread*r.NormFloat64())
}

// Heights that a wholly wrong reading may lie between, mm.
const wildLow, wildHigh = 5.0, 30.0

// MeasureCarelessly reads a true height; a share of the readings, 0 to 1, are
// bad: a burr or a tilted jaw, or a number written down wrongly.
func (c Caliper) MeasureCarelessly(r *rand.Rand, height geometry.Millimetre, bad float64) geometry.Millimetre {
	reading := float64(height) + c.Spread*r.NormFloat64()
	switch u := r.Float64(); {
	case u < bad*c.WildShare:
		reading = wildLow + (wildHigh-wildLow)*r.Float64()
	case u < bad:
		reading += c.SlipSpread * r.NormFloat64()
	}
	return c.round(reading)
}

func (c Caliper) round(reading float64) geometry.Millimetre {
	if c.Step <= 0 {
		return geometry.Millimetre(reading)
	}
	return geometry.Millimetre(math.Round(reading/c.Step) * c.Step)
}
