package wear

import "math"

// filter follows a runner's height through one segment at an assumed loss per
// pass. A reading is sound, a slip of the caliper, or wholly wrong: the three
// are weighed by how well they explain it, and their outcomes joined into one
// normal with the same mean and variance.
type filter struct {
	Constants
	loss          float64 // mm per pass
	state         normal  // height now
	logLikelihood float64
}

// How the share of bad readings splits: two slips to one wholly wrong reading.
const (
	slipPart = 2.0 / 3
	wildPart = 1.0 / 3
)

// run filters a segment and gives the chance that each reading left after the
// beginning is sound, into sound if that is not nil.
func (f *filter) run(s Segment, sound []float64) {
	state, at, readings := s.begin()
	f.state = state
	for i, r := range readings {
		f.grind(r.Passes - at)
		at = r.Passes
		chance := f.read(float64(r.Height), s.CaliperVariance)
		if sound != nil {
			sound[i] = chance
		}
	}
}

// grind takes passes off.
func (f *filter) grind(passes float64) {
	f.state.mean -= f.loss * passes
	f.state.variance += f.Unevenness * f.loss * f.loss * passes
}

// read takes a reading in and gives the chance that it is sound.
func (f *filter) read(height, caliperVariance float64) (sound float64) {
	p, off := f.state.variance, height-f.state.mean
	v0 := p + caliperVariance
	v1 := v0 + f.SlipSD*f.SlipSD
	w0 := (1 - f.SlipShare) * density(off, v0)
	w1 := slipPart * f.SlipShare * density(off, v1)
	w2 := wildPart * f.SlipShare / f.WildRange
	sum := w0 + w1 + w2
	w0, w1, w2 = w0/sum, w1/sum, w2/sum
	d0, d1 := p/v0*off, p/v1*off // how far each branch moves the height
	mean := w0*d0 + w1*d1
	variance := w0*(p*caliperVariance/v0+d0*d0) + w1*(p*(v1-p)/v1+d1*d1) + w2*p - mean*mean
	f.state = normal{f.state.mean + mean, variance}
	f.logLikelihood += math.Log(sum)
	return w0
}

// density is the normal density at a distance from the mean.
func density(off, variance float64) float64 {
	return math.Exp(-off*off/(2*variance)) / math.Sqrt(2*math.Pi*variance)
}
