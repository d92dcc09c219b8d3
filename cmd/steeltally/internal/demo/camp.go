package demo

import (
	"slices"
	"time"
)

// campPrepares is how many days before the camp the staff get ready for it.
const campPrepares = 4

// prepareCamp posts the season, signs the newcomers, gives everybody boots, and takes
// in some who try out in numbers that others wear.
func (c *club) prepareCamp(s season) {
	day := s.camp.AddDate(0, 0, -campPrepares)
	c.farm = nil
	c.agenda.add(clock(day, 7, 0), func() { c.post(s) })
	c.agenda.add(clock(day, 8, 0), c.fill)
	for _, p := range slices.Clone(c.players) {
		c.agenda.add(clock(day.AddDate(0, 0, 1), 7, 0), func() {
			if !p.gone && p.spare != nil {
				c.newBoots(p)
				c.putOn(p)
			}
		})
	}
	for range campTryouts {
		c.agenda.add(clock(day.AddDate(0, 0, 2), 9, 0), c.tryOut)
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
