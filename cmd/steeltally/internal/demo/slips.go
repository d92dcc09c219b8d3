package demo

import (
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// log writes a grind down: mostly at once, sometimes late, twice, for another player,
// or not at all.
func (c *club) log(p *player, deed deeds.Grind) {
	luck := c.chance.Float64()
	within := func(share float64) bool {
		luck -= share
		return luck < 0
	}
	switch {
	case within(neverShare):
		c.forget(p.first.on, deed)
	case within(lateShare):
		c.logLater(p, deed)
	case within(twiceShare) && p.story == nil:
		c.logTwice(p, deed, c.now().Add(c.chance.within(time.Hour, 60*time.Hour)))
	case within(wrongShare) && p.story == nil:
		c.logForAnother(p, deed)
	default:
		c.note(p, c.enter(deed))
	}
}

// forget leaves a grind out of the record for good.
func (c *club) forget(s *set, deed deeds.Grind) {
	usual := s.owner.passes
	for _, side := range sides() {
		if n := deed.Passes.Of(side); n != nil {
			s.on(side).unlogged += *n
		} else {
			s.on(side).unlogged += usual
		}
	}
}

// logLater enters a grind some hours after it was done, at its own time: perhaps
// after the steel was changed.
func (c *club) logLater(p *player, deed deeds.Grind) {
	then := inventory.At(c.now())
	c.later(time.Duration(c.chance.between(40, 300))*time.Minute, func() { c.note(p, c.enterAt(then, deed)) })
}

// logTwice scans a grind twice within a minute, which is noticed at a time. Where it
// was one grind the second is taken back; where there were two, both are right.
func (c *club) logTwice(p *player, deed deeds.Grind, noticed time.Time) {
	s := p.first.on
	first := c.enter(deed)
	c.pass(c.chance.within(15*time.Second, 50*time.Second))
	again := c.enter(deed)
	onPurpose := c.chance.happens(twiceOnPurpose)
	if onPurpose {
		c.takeOff(s, p.passes, p.passes)
	}
	c.open(p, noticed, &story{
		flagged: numbers{s.left.number, s.right.number},
		settle: func(*story) {
			if onPurpose {
				c.enter(deeds.KeepAll{Events: append(first, again...), Words: "ground twice on purpose"})
				return
			}
			c.enter(deeds.Undo{Events: again, Words: "scanned twice"})
		},
	})
}

// logForAnother scans the tag of another player who is there.
func (c *club) logForAnother(p *player, deed deeds.Grind) {
	other := c.somebodyElse(p)
	if other == nil {
		c.note(p, c.enter(deed))
		return
	}
	mistaken := deed
	mistaken.Player = other.number
	if deed.Passes.Left == nil {
		mistaken.Passes = passes(p.passes, p.passes)
	}
	events := c.enter(mistaken)
	other.lastVisit = c.now()
	c.open(other, c.now().Add(c.chance.within(time.Hour, 30*time.Hour)), &story{settle: func(*story) {
		c.enter(deeds.OtherPlayer{Grinds: events, Player: p.number})
	}})
}

// somebodyElse is another player at the bench whose record is in order and who was not
// at the wheel just now.
func (c *club) somebodyElse(p *player) *player {
	for _, other := range shuffled(c.chance, c.here()) {
		rested := c.now().Sub(other.lastVisit) > 2*leastPause
		if other != p && other.story == nil && rested && other.goalkeeper() == p.goalkeeper() {
			return other
		}
	}
	return nil
}
