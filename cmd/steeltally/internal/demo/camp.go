package demo

import (
	"slices"
	"time"
)

// beginCamp posts the season, signs the newcomers, gives everybody boots, and lets some
// try out who wear numbers that others wear.
func (c *club) beginCamp(s season) {
	if !s.camp.Before(c.opening) {
		c.agenda.add(clock(s.camp, 6, 0), func() { c.post(s) })
	}
	c.farm = nil
	c.agenda.add(clock(s.camp, 6, 30), c.fill)
	for _, p := range slices.Clone(c.players) {
		c.agenda.add(clock(s.camp, 7, 0), func() {
			if !p.gone && p.spare != nil {
				c.newBoots(p)
				c.putOn(p)
			}
		})
	}
	for range campTryouts {
		c.agenda.add(clock(s.camp, 8, 30), c.tryOut)
	}
}

// putOn puts steel on the pairs of a player that are bare.
func (c *club) putOn(p *player) {
	for _, boots := range []*pair{p.first, p.spare} {
		if boots != nil && boots.on == nil && boots.holders.Left != nil {
			c.fit(boots, c.next(boots))
		}
	}
	c.stockUp(p)
}

// tryOut is a player who comes to the camp only, in a number that is worn.
func (c *club) tryOut() {
	here := c.here()
	if len(here) == 0 {
		return
	}
	p := c.newPlayer(oneOf(c.chance, positionName(1), positionName(2)))
	p.callUp, p.tryOut, p.turns = true, true, false
	p.sweater = oneOf(c.chance, here...).sweater
	c.join(p, "first")
}

// endCamp sends those home who came to the camp only.
func (c *club) endCamp() {
	for _, p := range slices.Clone(c.players) {
		if p.tryOut {
			c.later(7*time.Hour, func() { c.leave(p) })
		}
	}
}
