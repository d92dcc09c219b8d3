package wear

import (
	"fmt"
	"math"
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
	l, err := c.Forecast(left)
	if err != nil {
		return PairForecast{}, fmt.Errorf("left runner: %w", err)
	}
	r, err := c.Forecast(right)
	if err != nil {
		return PairForecast{}, fmt.Errorf("right runner: %w", err)
	}
	return PairForecast{Left: l, Right: r}, nil
}
