package wear

import (
	"errors"
	"fmt"
	"math"

	"steeltally/geometry"
	"steeltally/inventory/wear/stats"
)

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

// grid is a row of log losses with what is known at each. The slices are equally
// long.
type grid struct {
	logLoss []float64
	loss    []float64
	state   []normal    // height now
	log     []float64   // log-likelihood of all segments
	sound   [][]float64 // by reading of the last segment: chance that it is sound
}

// newGrid lays points evenly over centre ± reach.
func newGrid(centre, reach float64, points int) grid {
	g := grid{logLoss: make([]float64, points), loss: make([]float64, points)}
	for i := range points {
		g.logLoss[i] = centre + reach*(2*float64(i)/float64(points-1)-1)
		g.loss[i] = math.Exp(g.logLoss[i])
	}
	return g
}

// filter fills the grid from a runner's segments and moves the height on by the
// passes since its last reading.
func (g grid) filter(c Constants, segments []Segment, since float64) grid {
	last := segments[len(segments)-1]
	_, _, readings := last.begin()
	g.state, g.log = make([]normal, len(g.loss)), make([]float64, len(g.loss))
	g.sound = make([][]float64, len(readings))
	for r := range readings {
		g.sound[r] = make([]float64, len(g.loss))
	}
	sound := make([]float64, len(readings))
	for i, loss := range g.loss {
		f := filter{Constants: c, loss: loss}
		for _, s := range segments[:len(segments)-1] {
			f.run(s, nil)
		}
		f.run(last, sound)
		for r := range sound {
			g.sound[r][i] = sound[r]
		}
		f.grind(since)
		g.state[i], g.log[i] = f.state, f.logLikelihood
	}
	return g
}

// normalised turns logarithms of weights into weights that add up to 1.
func normalised(logs []float64) []float64 {
	top := math.Inf(-1)
	for _, l := range logs {
		top = math.Max(top, l)
	}
	weights, sum := make([]float64, len(logs)), 0.0
	for i, l := range logs {
		weights[i] = math.Exp(l - top)
		sum += weights[i]
	}
	for i := range weights {
		weights[i] /= sum
	}
	return weights
}

// Reading is one height, taken after so many passes of its segment.
type Reading struct {
	Passes float64 // since new; where that is unknown, since the segment began
	Height geometry.Millimetre
}

// Segment is a stretch of one runner's life in which every pass is known, with
// its readings in order. Passes that nobody counted end a segment; the next
// height begins another, and both share the runner's loss per pass.
type Segment struct {
	New             stats.Estimate // height when new (mm, mm²); variance 0: unknown, the first reading begins it
	CaliperVariance float64        // of a sound reading, mm²
	Readings        []Reading
}

func (s Segment) fromNew() bool { return s.New.Variance > 0 }

// begin is where the filter starts: the height when new or the first reading,
// and the readings that are left to use.
func (s Segment) begin() (state normal, passes float64, left []Reading) {
	if s.fromNew() {
		return normal{s.New.Value, s.New.Variance}, 0, s.Readings
	}
	first := s.Readings[0]
	return normal{float64(first.Height), s.CaliperVariance}, first.Passes, s.Readings[1:]
}

// ErrNoReading says that a segment has neither a new height nor a reading.
var ErrNoReading = errors.New("no height to begin with: measure the runner")

func (s Segment) check() error {
	if !s.fromNew() && len(s.Readings) == 0 {
		return ErrNoReading
	}
	if !(s.CaliperVariance > 0) || math.IsInf(s.CaliperVariance, 0) || !finite(s.New.Value, s.New.Variance) {
		return fmt.Errorf("caliper variance %v mm², new height %v mm ± √%v: they must be numbers, the first above 0",
			s.CaliperVariance, s.New.Value, s.New.Variance)
	}
	before := math.Inf(-1)
	if s.fromNew() {
		before = 0
	}
	for i, r := range s.Readings {
		if !finite(r.Passes, float64(r.Height)) || r.Passes < before {
			return fmt.Errorf("reading %d: %v after %v passes, the one before after %v: put readings in order",
				i+1, r.Height, r.Passes, before)
		}
		before = r.Passes
	}
	return nil
}

func checkSegments(segments []Segment) error {
	if len(segments) == 0 {
		return ErrNoReading
	}
	for i, s := range segments {
		if err := s.check(); err != nil {
			return fmt.Errorf("segment %d: %w", i+1, err)
		}
	}
	return nil
}

func finite(values ...float64) bool {
	for _, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return false
		}
	}
	return true
}
