package demo

import (
	"fmt"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// How a maker answers, invented.
const (
	claimShare   = .6 // of the cracked holders that are sent to the maker
	claimPatient = 30 // days in which he promises to answer
	claimSlowest = 40 // days that it really takes
)

// claim sends a cracked holder to its maker, or keeps it to be thrown away.
func (c *club) claim(holder inventory.Number, s *system) {
	if !c.stock.weak[holder] && !c.chance.happens(claimShare) {
		c.broken = append(c.broken, holder)
		return
	}
	c.claims++
	reference := fmt.Sprintf("C-%d", c.claims)
	c.later(c.chance.within(12*time.Hour, 72*time.Hour), func() {
		c.enter(deeds.HandOver{
			Pieces: numbers{holder}, Custody: "maker", With: s.maker, Reference: reference,
			Due: inventory.At(c.now().AddDate(0, 0, claimPatient)),
		})
		c.later(c.chance.within(8*24*time.Hour, claimSlowest*24*time.Hour), func() { c.answer(holder) })
	})
}

// answer is the maker's word: mostly another holder, which comes with the next delivery.
func (c *club) answer(holder inventory.Number) {
	decision := oneOf(c.chance, "replace", "replace", "credit", "refuse")
	if c.stock.weak[holder] {
		decision = "replace"
	}
	c.enter(deeds.NoteAnswer{Pieces: numbers{holder}, Decision: decision})
	c.later(c.chance.within(24*time.Hour, 10*24*time.Hour), func() {
		if decision != "refuse" {
			c.enter(deeds.NoteAnswer{Pieces: numbers{holder}, Decision: "settled"})
			return
		}
		c.enter(deeds.TakeBack{Pieces: numbers{holder}, NotGround: true})
		c.broken = append(c.broken, holder)
	})
}

// scrapBroken throws away what broke in the season.
func (c *club) scrapBroken() {
	for len(c.broken) > 0 {
		n := min(len(c.broken), 20)
		c.enter(deeds.Scrap{Pieces: c.broken[:n], Reason: "broken"})
		c.broken = c.broken[n:]
	}
}
