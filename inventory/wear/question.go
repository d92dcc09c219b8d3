package wear

import (
	"errors"
	"fmt"

	"steeltally/geometry"
)

// Question is what a forecast of one runner is made from.
type Question struct {
	Prior        Prior
	Own          []Segment // the runner's, the last one open
	Since        float64   // passes since the last reading, or since new without one
	SinceUnknown bool      // some of them were done elsewhere and nobody counted
	Partner      []Segment // the other side of the set; none: not known
	Change       geometry.Millimetre
}

// ErrPassesUnknown says that steel was taken off that nobody counted.
var ErrPassesUnknown = errors.New("passes since the last height are unknown: measure the runner")

func (q Question) check() error {
	if err := q.Prior.check(); err != nil {
		return err
	}
	if err := checkSegments(q.Own); err != nil {
		return err
	}
	if len(q.Partner) > 0 {
		if err := checkSegments(q.Partner); err != nil {
			return fmt.Errorf("partner: %w", err)
		}
	}
	if q.SinceUnknown {
		return ErrPassesUnknown
	}
	if !(q.Since >= 0) || !finite(q.Since, float64(q.Change)) {
		return fmt.Errorf("%v passes since, change at %v: they must be numbers, passes not negative", q.Since, q.Change)
	}
	return nil
}

const (
	forecastPoints = 161
	forecastReach  = 5 // scales of the prior to either side
)

// Forecast answers the question; ErrPassesUnknown and ErrNoReading are reasons
// to measure, not to guess.
func (c Constants) Forecast(q Question) (Forecast, error) {
	if err := q.check(); err != nil {
		return Forecast{}, err
	}
	empty := newGrid(q.Prior.Mean, forecastReach*q.Prior.Scale, forecastPoints)
	own := empty.filter(c, q.Own, q.Since)
	prior := q.Prior.alone(empty)
	if len(q.Partner) > 0 {
		prior = q.Prior.withPartner(empty.filter(c, q.Partner, 0))
	}
	return c.newForecast(own, prior, q.Change), nil
}
