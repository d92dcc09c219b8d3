package wear_test

import (
	"math/rand/v2"

	"steeltally/inventory/wear"
	"steeltally/inventory/wear/truth"
)

// simClub is an invented club with its record, as a program would have it.
type simClub struct {
	truth.Club
	constants wear.Constants
	r         *rand.Rand
	bad       float64 // share of bad readings
	players   []truth.Player
	earlier   [][]wear.Pair // by player
}

const (
	nominalNew      = 21.0
	earlierReadings = 3
	removedEarly    = 0.1
)

// newSimClub draws a club whose players have so many earlier pairs each, and
// whose readings are bad to a share.
func newSimClub(r *rand.Rand, earlierPairs []int, bad float64) *simClub {
	s := &simClub{Club: truth.Stated().NewClub(r), constants: wear.Defaults(), r: r, bad: bad}
	for _, pairs := range earlierPairs {
		player := s.NewPlayer(r)
		s.players = append(s.players, player)
		history := make([]wear.Pair, pairs)
		for i := range history {
			history[i] = s.wearOut(player)
			history[i].In, history[i].Out = float64(i), float64(i+1)
		}
		s.earlier = append(s.earlier, history)
	}
	return s
}

// sessionPasses draws the passes of one session's grind: the usual number, and on some
// days the nick work on top, which the club logs too.
func (s *simClub) sessionPasses() int {
	passes := s.UsualPasses
	if s.r.Float64() < s.DamageShare {
		passes += s.DamagePasses[0] + s.r.IntN(s.DamagePasses[1]-s.DamagePasses[0]+1)
	}
	return passes
}

// step is a pair after one session.
type step struct {
	passes float64
	pair   truth.Pair
}

// path grinds a new pair until its first runner is at its change height.
func (s *simClub) path(pair truth.Pair) []step {
	var steps []step
	for pair.Left.Height > s.ChangeHeight && pair.Right.Height > s.ChangeHeight {
		s.GrindPair(s.r, &pair, s.sessionPasses())
		steps = append(steps, step{float64(pair.Left.Passes), pair})
	}
	return steps
}

// wearOut lets a pair live its life, with a height in each third of it.
func (s *simClub) wearOut(player truth.Player) wear.Pair {
	steps := s.path(s.NewPair(s.r, player))
	life := float64(len(steps))
	if s.r.Float64() < removedEarly {
		life *= .2 + .7*s.r.Float64()
	}
	pair := newPair()
	for i := range earlierReadings {
		at := life * (float64(i) + s.r.Float64()) / earlierReadings
		s.measure(&pair, steps[int(at)])
	}
	return pair
}

// newPair is a pair in the record, new and without a reading.
func newPair() wear.Pair {
	side := func() wear.Runner { return wear.Runner{Stretches: []wear.Stretch{{New: true}}} }
	return wear.Pair{Left: side(), Right: side(), Change: truth.Stated().ChangeHeight}
}

// measure adds a reading of both sides.
func (s *simClub) measure(pair *wear.Pair, at step) {
	add := func(side wear.Runner, steel truth.Runner) {
		height := s.Caliper.MeasureCarelessly(s.r, steel.Height, s.bad)
		readings := &side.Stretches[0].Readings
		*readings = append(*readings, wear.Reading{Passes: at.passes, Height: height})
	}
	add(pair.Left, at.pair.Left)
	add(pair.Right, at.pair.Right)
}
