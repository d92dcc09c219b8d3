package demo

import (
	"math"
	"slices"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
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

// steelShelf is where a player's ready sets lie.
func steelShelf(p *player) *inventory.Place {
	return &inventory.Place{Name: "steel shelf", Slot: p.slot()}
}

// match makes a set of two runners.
func (c *club) match(p *player, left, right *runner) *set {
	return c.matchAt(inventory.At(c.now()), p, left, right)
}

func (c *club) matchAt(then inventory.When, p *player, left, right *runner) *set {
	c.drawWear(p, left, right)
	events := c.enterAt(then, deeds.MakeSet{Player: p.number, Left: left.number, Right: right.number})
	s := &set{
		number: bodyOf[inventory.SetMade](events).Set, owner: p, left: left, right: right, entries: events,
		low: p.low + judgement*geometry.Millimetre(c.chance.NormFloat64()),
	}
	c.sets[s.number] = s
	return s
}

// prepare makes a set ready: matched, profiled, ground, measured at times. Now and
// then there is no time for the first grind.
func (c *club) prepare(p *player) *set {
	left, right := c.steelFor(p)
	s := c.match(p, left, right)
	c.pass(40 * time.Second)
	c.profile(s)
	if !c.chance.happens(unground) {
		c.pass(80 * time.Second)
		c.groundInHand(s)
		if c.chance.happens(newMeasured) {
			c.measureSet(s)
		}
	}
	c.pass(20 * time.Second)
	return s
}

// unground is the share of the sets that go on the shelf without their first grind.
const unground = .03

// profile gives a set its profile, and takes down the higher of two unequal runners.
func (c *club) profile(s *set) {
	left := profilePasses + c.chance.between(0, 3)
	right := left
	surplus := float64(s.left.steel.Height - s.right.steel.Height)
	if loss := s.left.steel.LossPerPass; surplus > loss {
		left = min(left+int(math.Round(surplus/loss)), mostPasses)
	} else if loss := s.right.steel.LossPerPass; -surplus > loss {
		right = min(right+int(math.Round(-surplus/loss)), mostPasses)
	}
	c.takeOff(s, left, right)
	c.enter(deeds.Grind{Set: s.number, Work: inventory.WorkProfile, Passes: passes(left, right), Machine: profiler})
}

// mostPasses is what the record takes for one work.
const mostPasses = 40

func passes(left, right int) inventory.Both[int] {
	return inventory.Both[int]{Left: &left, Right: &right}
}

// groundInHand is a usual grind of a set that is on no pair.
func (c *club) groundInHand(s *set) {
	c.takeOff(s, s.owner.passes, s.owner.passes)
	c.enter(deeds.Grind{Set: s.number, Machine: homeWheel})
	s.ground, s.hollow = true, s.owner.hollow
}

// shelve puts a set on its player's shelf.
func (c *club) shelve(s *set) {
	s.owner.shelf = append(s.owner.shelf, s)
	c.enter(deeds.PutAt{Pieces: numbers{s.number}, Place: *steelShelf(s.owner)})
}

// next takes the set that goes on a pair next from the shelf; without any it is made
// now.
func (c *club) next(boots *pair) *set {
	p := boots.owner
	if len(p.shelf) == 0 {
		return c.prepare(p)
	}
	wanted := p.wantedOn(boots)
	best := p.shelf[0]
	for _, s := range p.shelf {
		if gap(s.height(), wanted) < gap(best.height(), wanted) {
			best = s
		}
	}
	p.unshelve(best)
	return best
}

// wantedOn is the height that the next set on a pair should have: that of the other
// pair's where two are used in turn, else the lowest, so that no half-worn steel is
// left over.
func (p *player) wantedOn(boots *pair) geometry.Millimetre {
	other := p.first
	if boots == p.first {
		other = p.spare
	}
	switch {
	case !p.turns || other == nil || other.on == nil:
		return p.low
	case other.on.height() < p.low+worthKeeping:
		return p.twins() // it will be changed as well
	}
	return other.on.height()
}

// twins is the height of the lowest two sets on the shelf that go together, or above
// all where none do.
func (p *player) twins() geometry.Millimetre {
	lowest := mostHeight
	for i, a := range p.shelf {
		for _, b := range p.shelf[i+1:] {
			if gap(a.height(), b.height()) <= spareReach {
				lowest = min(lowest, a.height(), b.height())
			}
		}
	}
	return lowest
}

// mostHeight is above that of any steel.
const mostHeight geometry.Millimetre = 30

func gap(a, b geometry.Millimetre) geometry.Millimetre { return max(a-b, b-a) }

func (p *player) unshelve(s *set) {
	p.shelf = slices.DeleteFunc(p.shelf, func(other *set) bool { return other == s })
}

// stockUp makes the sets ready that a player lacks.
func (c *club) stockUp(p *player) {
	for !p.gone && len(p.shelf) < p.wants() && c.err == nil {
		c.shelve(c.prepare(p))
	}
}

// retire takes a set out of use; what of it is still good is laid aside.
func (c *club) retire(s *set, good ...*runner) {
	delete(c.sets, s.number)
	s.entries = nil
	c.stock.lay(good...)
}
