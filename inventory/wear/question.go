package wear

import (
	"errors"
	"fmt"
	"math"

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
		p.SideSpread = partner.logLoss[1] - partner.logLoss[0]
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
