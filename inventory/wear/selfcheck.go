package wear

import (
	"steeltally/geometry"
)

// PastForecast is one that was made and can now be looked back on.
type PastForecast struct {
	Due     float64 // the chance that it gave, 0 to 1, to be due by when the runner was measured to be, or went out of use
	Reached bool    // false: it went out of use above its change height, or is still in use
}

// SelfCheck is how past forecasts did.
type SelfCheck struct{ Checked, Held int }

// count takes in one forecast. A runner that left early decides only where it
// had outlasted the interval by then: that was wrong.
func (s *SelfCheck) count(p PastForecast) {
	switch {
	case p.Reached && p.Due >= 0.1 && p.Due <= 0.9:
		s.Held++
	case !p.Reached && p.Due <= 0.9:
		return
	}
	s.Checked++
}

// HalfLife is the reading from which a forecast would have been made at half of
// the way from the first height to the change height: the first one at or below
// it. False where no reading is, or where it is at or below the change height.
func HalfLife(s Segment, change geometry.Millimetre) (reading int, ok bool) {
	if s.check() != nil {
		return 0, false
	}
	state, _, readings := s.begin()
	half := (geometry.Millimetre(state.mean) + change) / 2
	for i, r := range readings {
		if r.Height <= half {
			return len(s.Readings) - len(readings) + i, r.Height > change
		}
	}
	return 0, false
}

// closeToChange is how far above its change height a last reading may lie for
// the rest to be worked out from the runner's own loss so far.
const closeToChange geometry.Millimetre = 0.5

// Crossing is where a runner came to its change height, as far as its readings tell.
type Crossing struct {
	Passes   float64 // after the reading from which it was foretold, or to the last reading
	Variance float64 // of these, for the caliper's error
	Reached  bool    // false: it went out of use above its change height, or is still in use
}

// PassesUntil is how many passes after one of its readings a runner was at its
// change height: in proportion between the two readings about it, or a little
// beyond a later one within half a millimetre of it.
func PassesUntil(s Segment, reading int, change geometry.Millimetre) Crossing {
	from := s.Readings[reading]
	before := from
	for _, r := range s.Readings[reading+1:] {
		if r.Height <= change {
			return s.crossing(from, before, s.CaliperVariance, r, change)
		}
		before = r
	}
	start, at, _ := s.begin()
	beginning := Reading{at, geometry.Millimetre(start.mean)}
	later := len(s.Readings) > reading+1 // else the forecast would be held against its own reading
	if later && before.Height-change <= closeToChange && before.Height < beginning.Height {
		return s.crossing(from, beginning, start.variance, before, change)
	}
	return Crossing{Passes: before.Passes - from.Passes}
}

// crossing is where the line from a reading, of some variance, to a lower one meets
// a height.
func (s Segment) crossing(from, upper Reading, variance float64, lower Reading, height geometry.Millimetre) Crossing {
	part := float64((upper.Height - height) / (upper.Height - lower.Height))
	passesPerMM := (lower.Passes - upper.Passes) / float64(upper.Height-lower.Height)
	return Crossing{
		Passes:   upper.Passes + part*(lower.Passes-upper.Passes) - from.Passes,
		Variance: passesPerMM * passesPerMM * ((1-part)*(1-part)*variance + part*part*s.CaliperVariance),
		Reached:  true,
	}
}
