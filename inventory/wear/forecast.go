// Package wear says how fast steel loses height and when a runner is due for
// change, from plain numbers: heights after so many passes, the player's and
// the club's earlier runners, and the schedule.
//
// One forecast goes through four steps. CaliperVariance and NewHeight learn
// what a reading and a new runner are worth. EarlierRunner turns each removed
// runner into a loss per pass with its error; a Pool of them gives a player's
// Prior. Forecast filters the present runner's heights (and its partner's)
// over a grid of losses. PassesLeft counts passes; FirstDay counts days. Learn
// takes the first three steps over a whole Record, and LookBack says how such
// forecasts have held so far.
//
// Heights are in mm at the middle of the runner, one reference (loose or
// fitted) in one series. Losses are mm a pass, and their logarithms natural.
// A player is a player in one role: goalkeepers are pooled by themselves.
package wear

import (
	"fmt"
	"math"

	"steeltally/geometry"
	"steeltally/inventory/wear/stats"
)

// Forecast is what is known of a runner's future: at each possible loss per
// pass its weight and the height now.
type Forecast struct {
	Loss       float64   // expected loss per pass, mm
	Height     float64   // expected height now, mm
	Sound      []float64 // chance that each reading after the beginning of the last segment is sound
	change     float64
	unevenness float64
	points     []point
}

// point is one possible loss per pass.
type point struct {
	weight, loss float64
	height       normal
}

const negligible = 1e-13 // weight of a point, of 1, that is left out

func (c Constants) newForecast(g grid, prior []float64, change geometry.Millimetre) Forecast {
	f := Forecast{change: float64(change), unevenness: c.Unevenness, Sound: make([]float64, len(g.sound))}
	logs := make([]float64, len(prior))
	for i := range logs {
		logs[i] = prior[i] + g.log[i]
	}
	for i, w := range normalised(logs) {
		f.Loss += w * g.loss[i]
		f.Height += w * g.state[i].mean
		for r := range g.sound {
			f.Sound[r] += w * g.sound[r][i]
		}
		if w > negligible {
			f.points = append(f.points, point{w, g.loss[i], g.state[i]})
		}
	}
	return f
}

// DueBy is the chance that the runner is at or below its change height after a
// number of further passes, 0 or more.
func (f Forecast) DueBy(passes float64) float64 { return f.dueBy(passes, 0) }

// dueBy allows for the number of passes being uncertain.
func (f Forecast) dueBy(passes, passesVariance float64) float64 {
	sum := 0.0
	for _, p := range f.points {
		square := p.loss * p.loss
		variance := p.height.variance + f.unevenness*square*passes + square*passesVariance
		below := f.change - p.height.mean + p.loss*passes
		sum += p.weight * math.Erfc(-below/math.Sqrt(2*variance)) / 2
	}
	return sum
}

// HeightAt is the height now, mm, that the runner is at or below with the given chance,
// more than 0 and less than 1: .1 and .9 bound an 80 % interval.
func (f Forecast) HeightAt(chance float64) float64 {
	low, high := math.Inf(1), math.Inf(-1) // a mixture's quantile lies between those of its parts
	standard := math.Erfinv(2*chance - 1)
	for _, p := range f.points {
		part := p.height.mean + standard*math.Sqrt(2*p.height.variance)
		low, high = math.Min(low, part-heightTolerance), math.Max(high, part+heightTolerance)
	}
	below := func(height float64) float64 {
		sum := 0.0
		for _, p := range f.points {
			sum += p.weight * math.Erfc((p.height.mean-height)/math.Sqrt(2*p.height.variance)) / 2
		}
		return sum - chance
	}
	height, err := stats.Root(below, low, high, heightTolerance)
	if err != nil {
		return f.Height
	}
	return height
}

const heightTolerance = 1e-6 // mm

// PassesLeft is the number of passes by which the runner is due with the given
// chance, 0 to 1: .5 is the middle guess, .1 and .9 bound an 80 % interval. It
// is 0 where that chance is reached already.
func (f Forecast) PassesLeft(chance float64) (float64, error) {
	return passesUntil(f.DueBy, chance, f.guess())
}

// guess is about how many passes are left, at least one.
func (f Forecast) guess() float64 {
	return math.Max(1, (f.Height-f.change)/f.Loss)
}

const farthest = 1e9 // passes; no steel lasts so long

// passesUntil finds where a rising chance of being due reaches a level.
func passesUntil(dueBy func(float64) float64, chance, guess float64) (float64, error) {
	if !(chance > 0 && chance < 1) {
		return 0, fmt.Errorf("chance %v is not between 0 and 1", chance)
	}
	if dueBy(0) >= chance {
		return 0, nil
	}
	low, high := 0.0, guess
	for dueBy(high) < chance {
		if low, high = high, 1.5*high; high > farthest {
			return 0, fmt.Errorf("not due within %g passes: check heights and passes", float64(farthest))
		}
	}
	return stats.Root(func(m float64) float64 { return dueBy(m) - chance }, low, high, passesTolerance)
}

const passesTolerance = 1e-6 // of a pass
