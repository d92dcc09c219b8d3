package standing

import (
	"slices"
	"time"

	"steeltally/inventory"
)

// Steel is a set with its runners; one that is not in the record is nil. What it went
// through is read from the runners, so that the set's own state need not be.
type Steel struct {
	Number      inventory.Number
	Letter      string
	State       inventory.State
	Left, Right *inventory.Runner
	First       time.Time // first use
	Last        time.Time // off for good
}

// steelOf is a set of a player with its runners.
func steelOf(v inventory.View, player *inventory.Player, n inventory.Number, at time.Time) *Steel {
	s := &Steel{Number: n}
	for _, lettered := range player.Sets {
		if lettered.Set == n {
			s.Letter = lettered.Letter
			s.Left, _ = inventory.FindRunner(v, lettered.Left)
			s.Right, _ = inventory.FindRunner(v, lettered.Right)
		}
	}
	s.State = setState(v, n, s.Left, s.Right, at)
	return s
}

// Runner is the one of a side, or nil.
func (s *Steel) Runner(side inventory.Side) *inventory.Runner {
	if side == inventory.Right {
		return s.Right
	}
	return s.Left
}

// Runners are those that are in the record.
func (s *Steel) Runners() []*inventory.Runner {
	var list []*inventory.Runner
	for _, side := range inventory.Sides() {
		if r := s.Runner(side); r != nil {
			list = append(list, r)
		}
	}
	return list
}

// together tells whether the set's runners were ground in this set only: a partner is whom
// a runner was ground with.
func (s *Steel) together(at time.Time) bool {
	for _, r := range s.Runners() {
		if r.GroundElsewhere(s.Number, at) {
			return false
		}
	}
	return true
}

// lastMove is when one of the runners was last moved as part of the set.
func (s *Steel) lastMove(at time.Time) time.Time {
	last := s.First
	for _, r := range s.Runners() {
		for _, move := range r.Moves.Until(at) {
			if move.Value.Set == s.Number && move.When.Start.After(last) {
				last = move.When.Start
			}
		}
	}
	return last
}

// PairAt is the pair that the set was on at an instant, or zero.
func (s *Steel) PairAt(at time.Time) inventory.Number {
	for _, r := range s.Runners() {
		if move, _ := r.Moves.At(at); move.Set == s.Number && move.Kind == inventory.WentIn && move.Pair != 0 {
			return move.Pair
		}
	}
	return 0
}

// ground tells whether the set was ever ground, by the rule of NeverGround.
func (s *Steel) ground(at time.Time) bool {
	return slices.ContainsFunc(s.Runners(), func(r *inventory.Runner) bool {
		return slices.ContainsFunc(r.Works.Until(at), func(work inventory.Dated[inventory.Work]) bool {
			return work.Value.Kind != inventory.WorkHone && work.Value.Set == s.Number
		})
	})
}

// NeverGround tells whether a set in the record was not ground yet at an instant; honing is
// no grind.
func NeverGround(set *inventory.Set, at time.Time) bool {
	return set != nil && set.Number != 0 && !set.GroundSince(time.Time{}, at)
}
