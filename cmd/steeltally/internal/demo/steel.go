package demo

import (
	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/wear/truth"
)

// runner is one piece of steel.
type runner struct {
	number   inventory.Number
	key      stockKey
	side     inventory.Side // none before its first set
	used     bool           // its steel is drawn
	steel    truth.Runner   // as it truly is
	unlogged int            // passes that the record does not have
	nominal  geometry.Millimetre
	readings []reading
	player   inventory.Number
}

// reading is what the record says of a runner's height.
type reading struct {
	key       inventory.Key
	reference inventory.Reference
	height    geometry.Millimetre
}

// last is the last height that the record has of a runner on a reference; a loose one
// starts from the height at stock-in.
func (r *runner) last(reference inventory.Reference) (reading, bool) {
	for i := len(r.readings) - 1; i >= 0; i-- {
		if r.readings[i].reference == reference {
			return r.readings[i], true
		}
	}
	return reading{reference: inventory.Loose, height: r.nominal}, reference == inventory.Loose
}

// set is a matched left and right runner.
type set struct {
	number      inventory.Number
	owner       *player
	left, right *runner
	crossed     bool                // the left runner is truly on the right boot
	low         geometry.Millimetre // at which it is taken to be due
	hollow      inventory.Cut       // ground to
	ground      bool
	entries     []inventory.Event // that stand
}

// of is the set's runner of a side, as the record has it.
func (s *set) of(side inventory.Side) *runner {
	if side == inventory.Right {
		return s.right
	}
	return s.left
}

// on is the runner that truly is on the boot of a side.
func (s *set) on(side inventory.Side) *runner {
	if s.crossed {
		side = side.Other()
	}
	return s.of(side)
}

// height is the set's true height: that of its lower runner.
func (s *set) height() geometry.Millimetre { return min(s.left.steel.Height, s.right.steel.Height) }

func (s *set) isLow() bool { return s.height() <= s.low }

// sides are left and right, in the order in which people name them.
func sides() [2]inventory.Side { return [2]inventory.Side{inventory.Left, inventory.Right} }

// takeOff grinds passes off what is on the boots: what both sides get together, and
// the rest of one side.
func (c *club) takeOff(s *set, left, right int) {
	club := c.steelOf(s.owner)
	l, r := s.on(inventory.Left), s.on(inventory.Right)
	if both := min(left, right); both > 0 {
		pair := truth.Pair{Left: l.steel, Right: r.steel}
		club.GrindPair(c.chance.Rand, &pair, both)
		l.steel, r.steel = pair.Left, pair.Right
	}
	switch {
	case left > right:
		club.Grind(c.chance.Rand, &l.steel, left-right)
	case right > left:
		club.Grind(c.chance.Rand, &r.steel, right-left)
	}
}

// takeOffUnlogged grinds passes that the record will not have.
func (c *club) takeOffUnlogged(s *set, passes int) {
	c.takeOff(s, passes, passes)
	s.left.unlogged += passes
	s.right.unlogged += passes
}

// drawWear draws how a matched set truly wears on its player. Steel that was used
// before keeps its height, and on the same player its wear.
func (c *club) drawWear(p *player, left, right *runner) {
	pair := c.steelOf(p).NewPair(c.chance.Rand, p.wear)
	for _, draw := range []struct {
		runner *runner
		steel  truth.Runner
	}{{left, pair.Left}, {right, pair.Right}} {
		switch {
		case !draw.runner.used:
			draw.runner.steel, draw.runner.used = draw.steel, true
		case draw.runner.player != p.number:
			draw.runner.steel.LossPerPass = draw.steel.LossPerPass
		}
		draw.runner.player = p.number
	}
}
