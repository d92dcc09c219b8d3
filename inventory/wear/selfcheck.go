package wear

import (
	"steeltally/geometry"
)

// PastForecast is one that was made and can now be looked back on.
type PastForecast struct {
	Due     float64 // the chance that it gave, 0 to 1, to be due by when the runner was, or went out of use
	Reached bool    // false: it went out of use above its change height, or is still in use
}

// SelfCheck is how past forecasts did.
type SelfCheck struct{ Checked, Held int }

// CheckForecasts counts, over the last so many forecasts that can be decided,
// how often the 80 % interval held; give them in order of time.
func CheckForecasts(past []PastForecast, last int) SelfCheck {
	var s SelfCheck
	for i := len(past) - 1; i >= 0 && s.Checked < last; i-- {
		s.count(past[i])
	}
	return s
}

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

// PassesUntil is how many passes after one of its readings a runner was at its
// change height: in proportion between the two readings about it, or a little
// beyond a later one within half a millimetre of it. Otherwise it is false, with
// the passes to the last reading.
func PassesUntil(s Segment, reading int, change geometry.Millimetre) (passes float64, reached bool) {
	from := s.Readings[reading]
	before := from
	for _, r := range s.Readings[reading+1:] {
		if r.Height <= change {
			return before.until(r, change) - from.Passes, true
		}
		before = r
	}
	start, at, _ := s.begin()
	beginning := Reading{at, geometry.Millimetre(start.mean)}
	later := len(s.Readings) > reading+1 // else the forecast would be held against its own reading
	if later && before.Height-change <= closeToChange && before.Height < beginning.Height {
		return beginning.until(before, change) - from.Passes, true
	}
	return before.Passes - from.Passes, false
}

// until is where the line from a reading to a lower one meets a height.
func (r Reading) until(lower Reading, height geometry.Millimetre) float64 {
	part := float64((r.Height - height) / (r.Height - lower.Height))
	return r.Passes + part*(lower.Passes-r.Passes)
}
