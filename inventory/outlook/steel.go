package outlook

import (
	"time"

	"steeltally/inventory"
)

// steel is a set with its runners; one that is not in the record is nil. What it went
// through is read from the runners, so that the set's own state need not be.
type steel struct {
	number      inventory.Number
	letter      string
	left, right *inventory.Runner
	first       time.Time // first use
	last        time.Time // off for good
}

// steelOf is a set of the player with its runners.
func (m *Member) steelOf(v inventory.View, n inventory.Number) *steel {
	s := &steel{number: n}
	for _, lettered := range m.Sets {
		if lettered.Set == n {
			s.letter = lettered.Letter
			s.left, _ = inventory.FindRunner(v, lettered.Left)
			s.right, _ = inventory.FindRunner(v, lettered.Right)
		}
	}
	return s
}

func sides() []inventory.Side { return []inventory.Side{inventory.Left, inventory.Right} }

func (s *steel) runner(side inventory.Side) *inventory.Runner {
	if side == inventory.Right {
		return s.right
	}
	return s.left
}

// runners are those that are in the record.
func (s *steel) runners() []*inventory.Runner {
	var list []*inventory.Runner
	for _, side := range sides() {
		if r := s.runner(side); r != nil {
			list = append(list, r)
		}
	}
	return list
}

// state is where the set is in its life: on while one of its runners is, done with when
// one of them is, or when one of them went into another set.
func (s *steel) state(at time.Time) inventory.State {
	state := inventory.Ready
	if len(s.runners()) < len(sides()) {
		state = inventory.Removed
	}
	for _, r := range s.runners() {
		move, _ := r.Moves.At(at)
		switch {
		case move.Set == s.number && move.Kind == inventory.WentIn && move.Pair != 0:
			return inventory.On
		case move.Set != s.number || move.Retired:
			state = inventory.Removed
		}
	}
	return state
}

// together tells whether the set's runners were ground in this set only: a partner is whom
// a runner was ground with.
func (s *steel) together(at time.Time) bool {
	for _, r := range s.runners() {
		if r.GroundElsewhere(s.number, at) {
			return false
		}
	}
	return true
}

// lastMove is when one of the runners was last moved as part of the set.
func (s *steel) lastMove(at time.Time) time.Time {
	last := s.first
	for _, r := range s.runners() {
		for _, move := range r.Moves.Until(at) {
			if move.Value.Set == s.number && move.When.Start.After(last) {
				last = move.When.Start
			}
		}
	}
	return last
}

// pairAt is the pair that the set was on at an instant, or zero.
func (s *steel) pairAt(at time.Time) inventory.Number {
	for _, r := range s.runners() {
		if move, _ := r.Moves.At(at); move.Set == s.number && move.Kind == inventory.WentIn && move.Pair != 0 {
			return move.Pair
		}
	}
	return 0
}

// ground tells whether the set was ever ground.
func (s *steel) ground(at time.Time) bool {
	for _, r := range s.runners() {
		if len(r.Works.Until(at)) == 0 {
			return false
		}
	}
	return true
}

func (s *steel) unsafe(at time.Time) bool {
	for _, r := range s.runners() {
		if r.DoNotSkate(at) {
			return true
		}
	}
	return false
}
