package demo

import (
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// removedBin is where this month's removed runners go; it gets its tag when it is first
// used.
func (c *club) removedBin() *inventory.Place {
	name := "bin " + c.now().In(c.calendar.zone).Format("Jan 2006")
	if c.bin != name {
		c.bin = name
		c.enter(deeds.NoteContainer{Container: inventory.KindBin, Name: name})
	}
	return &inventory.Place{Name: name}
}

// fit puts a set on a bare pair.
func (c *club) fit(boots *pair, s *set) {
	c.enter(deeds.PutSetIn{Player: boots.owner.number, Set: s.number, Pair: boots.number})
	c.hasOn(boots, s)
}

// hasOn is a set that just went on; the player is at the wheel for a moment longer.
func (c *club) hasOn(boots *pair, s *set) {
	boots.on = s
	if boots == boots.owner.first {
		boots.owner.lastVisit = c.now()
	}
	if !s.ground {
		c.groundOn(boots)
	}
}

// groundOn is a usual grind of what is on a pair, some minutes' work.
func (c *club) groundOn(boots *pair) {
	p := boots.owner
	c.pass(leastPause)
	if boots == p.first {
		p.lastVisit = c.now()
	}
	c.takeOff(boots.on, p.passes, p.passes)
	c.enter(deeds.Grind{Player: p.number, Pair: boots.number, Machine: homeWheel})
	c.sharpened(boots)
}

// changeLow takes low steel off a pair for good and puts the next set on.
func (c *club) changeLow(boots *pair) {
	p, old := boots.owner, boots.on
	c.settle(p)
	next := c.next(boots)
	if boots == p.first {
		c.scanWrongSet(p, next)
	}
	deed := deeds.TakeOut{Player: p.number, Pair: boots.number, Reason: inventory.ReasonLow, Place: c.removedBin()}
	if c.chance.happens(looseShare) {
		c.lastHeights(old, &deed)
	}
	if c.chance.happens(.2) {
		c.enter(deed)
		c.pass(4 * time.Minute)
		c.fit(boots, next)
	} else {
		c.swap(boots, deed, next)
	}
	c.retire(old)
	p.removed = old
	p.due = p.due && boots != p.first
	if boots == p.first && c.chance.happens(crossedShare) {
		c.crossOver(p)
	}
}

// swap is a change in one entry.
func (c *club) swap(boots *pair, deed deeds.TakeOut, next *set) {
	c.enter(deeds.ChangeSteel{TakeOut: deed, Set: next.number})
	c.hasOn(boots, next)
}

// lastHeights measures a set as it comes off.
func (c *club) lastHeights(s *set, deed *deeds.TakeOut) {
	deed.AsRead = true
	for _, side := range sides() {
		height := c.read(s, side, inventory.Loose)
		deed.Heights.Put(side, &height)
	}
}

// scanWrongSet scans the tag of another set than the one that goes on, and takes the
// whole change back.
func (c *club) scanWrongSet(p *player, next *set) {
	if len(p.shelf) == 0 || !c.chance.happens(wrongSetShare) {
		return
	}
	wrong := p.shelf[0]
	if wrong == next {
		return
	}
	events := c.enter(deeds.ChangeSteel{
		TakeOut: deeds.TakeOut{Player: p.number, Reason: inventory.ReasonLow, Place: c.removedBin()}, Set: wrong.number,
	})
	c.pass(2 * time.Minute)
	c.enter(deeds.Undo{Events: events, Words: "wrong set scanned"})
	c.pass(time.Minute)
}

// putBack makes a set of two removed runners again, because there was steel left on
// them: their tie-on tags are void then.
func (c *club) putBack(p *player) {
	old := p.removed
	if old == nil || p.gone || !p.here(c.now()) || old.height() < p.low {
		return
	}
	p.removed = nil
	s := c.match(p, old.left, old.right)
	s.low = p.low - 2*judgement
	s.ground, s.hollow = true, old.hollow
	c.shelve(s)
}

// refuse is a player who would rather keep his steel for some days.
func (c *club) refuse(p *player) {
	c.settle(p)
	review := clock(c.calendar.dayOf(c.now()), 6, 30).AddDate(0, 0, c.chance.between(1, 4))
	c.enter(deeds.RefuseChange{
		Player: p.number, Answer: oneOf(c.chance, "not before the game", "likes it low", "after the road trip"),
		Review: inventory.At(review),
	})
	p.asked = review
}

// changeDue changes what is low, with a player who has two sets in turn both.
func (c *club) changeDue(p *player) {
	if p.asked.After(c.now()) {
		return
	}
	if c.chance.happens(refusedShare) {
		c.refuse(p)
		return
	}
	p.due = false
	c.settle(p)
	if p.neglect == lowSteel && p.spare != nil && p.spare.on != nil && !p.spare.on.isLow() {
		c.exchange(p) // the low set will do for the spare pair
		return
	}
	c.changeLow(p.first)
	switch {
	case !p.turns || p.spare == nil || p.spare.on == nil || p.neglect != nothing:
	case p.spare.on.height() < p.low+worthKeeping:
		c.pass(5 * time.Minute)
		c.changeLow(p.spare)
	default:
		c.levelSpare(p)
	}
	if c.chance.happens(misjudgedShare) {
		c.later(c.chance.within(20*time.Hour, 70*time.Hour), func() { c.putBack(p) })
	}
}
