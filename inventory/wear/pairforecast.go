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

// alone is the log prior on a grid.
func (p Prior) alone(g grid) []float64 {
	logs := make([]float64, len(g.logLoss))
	for i, l := range g.logLoss {
		logs[i] = p.logDensity(l, p.Scale)
	}
	return logs
}

// withPartner is the log prior on a grid once the partner's heights are known:
// both sides lie about one pair, whose own prior is narrower by the spread of
// the sides.
func (p Prior) withPartner(partner grid) []float64 {
	if p.SideSpread == 0 {
		p.SideSpread = partner.logLoss[1] - partner.logLoss[0] // sides alike, as far as the grid tells
	}
	sides := newKernel(partner.logLoss, p.SideSpread)
	total := p.Scale * p.Scale
	narrow := math.Sqrt(math.Max(total-p.SideSpread*p.SideSpread, total/4))
	pairs := sides.spread(normalised(partner.log))
	for i, l := range partner.logLoss {
		pairs[i] *= math.Exp(p.logDensity(l, narrow))
	}
	own := sides.spread(pairs)
	for i := range own {
		own[i] = math.Log(own[i])
	}
	return own
}

// kernel spreads weights on a grid by a normal distribution.
type kernel []float64 // by distance in grid steps

const kernelReach = 9 // spreads beyond which nothing is carried

func newKernel(points []float64, sd float64) kernel {
	step := points[1] - points[0]
	reach := min(len(points)-1, int(kernelReach*sd/step)+1)
	k := make(kernel, reach+1)
	for d := range k {
		k[d] = density(float64(d)*step, sd*sd) * step
	}
	return k
}

func (k kernel) spread(weights []float64) []float64 {
	wide := make([]float64, len(weights))
	for i := range wide {
		for j := max(0, i-len(k)+1); j < min(len(weights), i+len(k)); j++ {
			wide[i] += k[max(i-j, j-i)] * weights[j]
		}
	}
	return wide
}
