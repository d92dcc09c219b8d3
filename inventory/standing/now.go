// Package standing tells how a piece, a set, a pair and a player stand at an instant: what
// is on, whether it may be skated on, how high it is, where it is and who has it. Each of
// these is worked out here and nowhere else; every list, paper, tag and screen takes it
// from here. It is pure: it looks at the record's states, never at a clock.
package standing

import (
	"time"

	"steeltally/inventory"
	"steeltally/inventory/wear"
)

// Now is the record at an instant, with what is known of the club's wear: whoever tells of
// how high steel is asks it.
type Now struct {
	inventory.View
	At      time.Time
	learnt  *Learnt
	heights map[inventory.Number]Height // of runners that were asked about
}

// NewNow is the record at an instant.
func NewNow(v inventory.View, at time.Time, learnt *Learnt) *Now {
	return &Now{v, at, learnt, map[inventory.Number]Height{}}
}

// HeightOf is how high a runner is; the zero Height of what is not in the record.
func (n *Now) HeightOf(runner inventory.Number) Height {
	height, known := n.heights[runner]
	if !known {
		n.tellSet(runner)
		height = n.heights[runner]
	}
	return height
}

// Wears tells whether how high a runner is now rests on what is known of wear: it was
// ground, and is not done with.
func Wears(v inventory.View, number inventory.Number, at time.Time) bool {
	runner, err := inventory.FindRunner(v, number)
	return err == nil && wears(runner, at)
}

func wears(runner *inventory.Runner, at time.Time) bool {
	return len(runner.Works.Until(at)) > 0 && runner.StateAt(at) != inventory.Removed
}

// tellSet foretells a runner and the other of its set.
func (n *Now) tellSet(number inventory.Number) {
	runner, err := inventory.FindRunner(n, number)
	if err != nil {
		n.heights[number] = Height{}
		return
	}
	if !wears(runner, n.At) {
		n.heights[number] = heightFrom(runner, Telling(runner, n.At), wear.Forecast{}, wear.ErrNoReading, n.At)
		return
	}
	player, s := &inventory.Player{}, &Steel{}
	if set, err := inventory.FindSet(n, runner.SetAt(n.At)); err == nil {
		s.Number = set.Number
		s.Left, _ = inventory.FindRunner(n, set.Left)
		s.Right, _ = inventory.FindRunner(n, set.Right)
		if owner, err := inventory.PlayerOf(n, set.Player); err == nil {
			player = owner
		}
	} else if runner.SideAt(n.At) == inventory.Right {
		s.Right = runner
	} else {
		s.Left = runner
	}
	expected := n.learnt.Expect(player, s, 0, n.At)
	for side, height := range expected.Heights.Each {
		if r := s.Runner(side); r.Number == number || r.SetAt(n.At) == s.Number {
			n.heights[r.Number] = *height
		}
	}
}
