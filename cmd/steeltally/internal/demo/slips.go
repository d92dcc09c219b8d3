package demo

import (
	"slices"
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
	for _, side := range sides() {
		passes := s.owner.passes
		if n := deed.Passes.Of(side); n != nil {
			passes = *n
		}
		s.on(side).unlogged += passes
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
	other := c.anybody(func(other *player) bool { // at the bench, and not at the wheel just now
		return other != p && other.inOrder() && c.now().Sub(other.lastVisit) > 2*leastPause && other.goalkeeper() == p.goalkeeper()
	})
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

// story is something that the record has otherwise than it is, until somebody
// notices. A player has one at a time; whatever else is done with his steel, the
// staff notice first.
type story struct {
	settle   func(*story)
	collects bool              // the player's grinds meanwhile
	grinds   []inventory.Event // oldest first
	flagged  numbers           // what the record itself is unsure of
}

// open begins a story that is noticed at a time.
func (c *club) open(p *player, noticed time.Time, s *story) {
	p.story = s
	c.agenda.add(noticed, func() {
		if p.story == s {
			c.settle(p)
		}
	})
}

// settle corrects what the record has wrong of a player.
func (c *club) settle(p *player) {
	if s := p.story; s != nil {
		p.story = nil
		s.settle(s)
	}
}

// note keeps a grind for the player's story, where it will be corrected with others.
func (c *club) note(p *player, events []inventory.Event) {
	if p.story == nil || !p.story.collects {
		return
	}
	for _, e := range events {
		if b, ok := e.Body.(*inventory.Ground); ok && b.Player == p.number {
			p.story.grinds = append(p.story.grinds, e)
		}
	}
	slices.SortStableFunc(p.story.grinds, func(a, b inventory.Event) int { return a.Happened.Compare(b.Happened) })
}

// forgetChange puts another set on and nobody scans it: the grinds that follow land on
// the set that was on, until somebody says "the last two were B".
func (c *club) forgetChange(p *player) {
	if p.story != nil || len(p.shelf) == 0 || p.first.on == nil {
		return
	}
	next := p.shelf[0]
	if !next.ground {
		return
	}
	p.unshelve(next)
	p.shelf = append(p.shelf, p.first.on)
	p.first.on = next
	c.open(p, c.now().Add(c.chance.within(20*time.Hour, 56*time.Hour)), &story{
		collects: true,
		settle: func(s *story) {
			if len(s.grinds) == 0 {
				c.enter(deeds.ChangeSteel{TakeOut: deeds.TakeOut{Player: p.number, Reason: inventory.ReasonRotate}, Set: next.number})
				return
			}
			c.enter(deeds.OtherSet{Grinds: s.grinds, Set: next.number})
		},
	})
}

// crossOver is a set whose runners were put on the wrong way round: from now on the
// left one is on the right boot, until somebody looks.
func (c *club) crossOver(p *player) {
	s := p.first.on
	if p.story != nil || s == nil || p.left != p.right {
		return
	}
	since := inventory.At(c.now())
	s.crossed = true
	c.open(p, c.now().Add(c.chance.within(24*time.Hour, 5*24*time.Hour)), &story{settle: func(*story) {
		s.crossed = false
		history := slices.Clone(s.entries)
		slices.SortStableFunc(history, func(a, b inventory.Event) int { return a.Happened.Compare(b.Happened) })
		c.enter(deeds.SwapSides{Sets: []deeds.SetHistory{{Set: s.number, Events: history}}, Since: since, Named: true})
	}})
}
