package demo

import (
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// keepSpare is the weekly care for a spare pair, as far as nothing is neglected.
func (c *club) keepSpare(p *player) {
	boots := p.spare
	if boots == nil || boots.on == nil || p.gone {
		return
	}
	c.levelSpare(p)
	if p.neglect != otherHollow && boots.on.hollow != p.hollow {
		c.newHollow(boots.on)
		c.pass(4 * time.Minute)
	}
	resting := c.chance.happens(restingVisits)
	if p.neglect != notGround && p.neglect != otherHollow && (boots.skated || resting) {
		c.groundOn(boots)
	}
	if c.chance.happens(bothMeasured) {
		c.measureBoth(p)
	}
	if p.neglect != notLookedAt && p.neglect != looseBolt {
		c.enter(deeds.Inspect{Piece: boots.number, Sound: true})
		c.pass(time.Minute)
	}
}

// measureBoth measures a player's first and spare pair, one after the other.
func (c *club) measureBoth(p *player) {
	p.measured = c.now()
	for _, boots := range p.shod() {
		c.measure(p, boots)
		c.pass(time.Minute)
	}
}

// spareReach is how far the steel of a spare pair may be from the first pair's.
const spareReach geometry.Millimetre = .5

// levelSpare takes low steel off a spare pair; where a ready set is nearer to the
// first pair's height than what is on, that goes on.
func (c *club) levelSpare(p *player) {
	boots := p.spare
	if p.gone || boots == nil || boots.on == nil || p.first.on == nil || p.neglect == otherHollow || p.neglect == lowSteel {
		return
	}
	if boots.on.isLow() {
		c.changeLow(boots)
		return
	}
	want := p.first.on.height()
	off := func(s *set) geometry.Millimetre { return gap(s.height(), want) }
	best := boots.on
	for _, s := range p.shelf {
		if s.ground && s.hollow == p.hollow && off(s) < off(best)-spareReach {
			best = s
		}
	}
	if best == boots.on || off(best) > spareReach {
		return
	}
	p.unshelve(best)
	c.bare(boots)
	c.fit(boots, best)
}

// trySpare is a practice, or a part of one, on the spare pair.
func (c *club) trySpare(p *player) {
	boots := p.spare
	rested := boots != nil && c.now().Sub(boots.tried) >= tryDays*24*time.Hour
	switch p.neglect {
	case notTried, missingHolder, looseBolt:
		return
	}
	if !rested || boots.on == nil || !boots.on.ground {
		return
	}
	boots.tried, boots.skated = c.now(), true
	c.enter(deeds.NoteSkated{Pair: boots.number})
	c.later(100*time.Minute, func() { c.afterTry(p, boots) })
}

// afterTry asks the player, grinds what was skated on and puts the pair in its place.
func (c *club) afterTry(p *player, boots *pair) {
	if p.gone || boots != p.spare || boots.on == nil {
		return
	}
	try := deeds.NoteTry{Pair: boots.number}
	if p.neglect == unwilling {
		try.Declined, try.Note = true, "too stiff, not yet"
	}
	c.enter(try)
	if boots.skated && p.neglect != notGround && p.neglect != otherHollow {
		c.groundOn(boots)
	}
	c.rack(boots)
}

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
		c.enter(deeds.TakeOut{Player: p.number, Pair: boots.number, Reason: inventory.ReasonRotate})
		boots.on = nil
	}
	c.pass(time.Minute)
	c.fit(p.first, rested)
	c.fit(p.spare, worn)
}

// worthKeeping is how far above its change height the steel that stays has to be when
// the other set of a player who has two in turn is changed.
const worthKeeping geometry.Millimetre = 1.2
