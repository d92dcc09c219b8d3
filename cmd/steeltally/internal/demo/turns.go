package demo

import (
	"time"

	"steeltally/geometry"
	"steeltally/inventory/deeds"
)

// lags tells whether the set on the first pair of a player who has two in turn is the
// lower one by now.
func (p *player) lags() bool {
	if !p.turns || p.spare == nil || p.spare.on == nil || p.first.on == nil {
		return false
	}
	return p.first.on.height() < p.spare.on.height()-turnReach
}

// turn exchanges the sets of a player who has two in turn: the one on the first pair
// goes on the spare pair and the other way round, ground.
func (c *club) turn(p *player) {
	if p.neglect == otherHollow || p.neglect == lowSteel {
		return
	}
	c.settle(p)
	if !p.lags() {
		return
	}
	c.exchange(p)
	p.spare.skated = true
	if p.neglect != notGround {
		c.groundOn(p.spare)
	}
	p.due = p.first.on.isLow()
}

// exchange puts the set of each pair on the other.
func (c *club) exchange(p *player) {
	worn, rested := p.first.on, p.spare.on
	for _, boots := range []*pair{p.first, p.spare} {
		c.enter(deeds.TakeOut{Player: p.number, Pair: boots.number, Reason: "rotate"})
		boots.on = nil
	}
	c.pass(time.Minute)
	c.fit(p.first, rested)
	c.fit(p.spare, worn)
}

// worthKeeping is how far above its change height the steel that stays has to be when
// the other set of a player who has two in turn is changed.
const worthKeeping geometry.Millimetre = 1.2
