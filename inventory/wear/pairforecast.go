package wear

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
)

// PairForecast is that of a set: it is due when the first of its runners is.
type PairForecast struct{ Left, Right Forecast }

// DueBy is the chance that the set is due after so many passes on both sides.
// It takes the sides to go together, which is a little late in theory; over the
// simulated clubs the intervals hold.
func (p PairForecast) DueBy(passes float64) float64 {
	return math.Max(p.Left.DueBy(passes), p.Right.DueBy(passes))
}

// PassesLeft is as for a runner.
func (p PairForecast) PassesLeft(chance float64) (float64, error) {
	return passesUntil(p.DueBy, chance, math.Min(p.Left.guess(), p.Right.guess()))
}

// ForecastPair answers for both runners of a set, each with the other as its
// partner, whatever the questions name as partner.
func (c Constants) ForecastPair(left, right Question) (PairForecast, error) {
	left.Partner, right.Partner = right.Own, left.Own
	return c.forecastPair(left, right)
}

func (c Constants) forecastPair(left, right Question) (PairForecast, error) {
	l, noLeft := c.Forecast(left)
	r, noRight := c.Forecast(right)
	if noLeft != nil || noRight != nil {
		return PairForecast{}, &PairError{noLeft, noRight}
	}
	return PairForecast{Left: l, Right: r}, nil
}

// PairError is why a set's runners can't be foretold, each for itself; nil where one can.
type PairError struct{ Left, Right error }

func (e *PairError) Error() string {
	var all []string
	for i, err := range []error{e.Left, e.Right} {
		if err != nil {
			all = append(all, fmt.Sprintf("%s runner: %v", [...]string{"left", "right"}[i], err))
		}
	}
	return strings.Join(all, "; ")
}

func (e *PairError) Unwrap() []error {
	return slices.DeleteFunc([]error{e.Left, e.Right}, func(err error) bool { return err == nil })
}

// ToMeasure tells whether a height of each runner that can't be foretold is all it takes.
func (e *PairError) ToMeasure() bool {
	return !slices.ContainsFunc(e.Unwrap(), func(err error) bool {
		return !errors.Is(err, ErrPassesUnknown) && !errors.Is(err, ErrNoReading)
	})
}
