package demo

import (
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

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
				c.enter(deeds.ChangeSteel{TakeOut: deeds.TakeOut{Player: p.number, Reason: "rotate"}, Set: next.number})
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
