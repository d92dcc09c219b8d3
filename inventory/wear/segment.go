package wear

import (
	"errors"
	"fmt"
	"math"

	"steeltally/geometry"
	"steeltally/inventory/wear/stats"
)

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
