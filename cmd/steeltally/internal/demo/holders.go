package demo

import (
	"fmt"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// crackHolder is a cracked holder on a first pair. In a game the player finishes on his
// spare pair; then the holder is replaced.
func (c *club) crackHolder(p *player, found string) {
	c.settle(p)
	side := c.weakerSide(p.first)
	holder := p.first.holders.Of(side)
	if holder == nil {
		return
	}
	damage := c.damageOf(*holder, "crack", found)
	damage.Zone = oneOf[inventory.Zone](c.chance, "rear-tower", "rear-tower", "rear-tower", "front-tower", "bridge")
	if found == "game" && p.spare != nil && p.spare.on != nil && p.neglect != looseBolt {
		c.finishOnSpare(p, side, damage)
		return
	}
	c.enter(damage)
	c.pass(3 * time.Minute)
	c.replaceHolder(p.first, side)
}

// weakerSide is the side of a holder of the weak lot, or either.
func (c *club) weakerSide(boots *pair) inventory.Side {
	for _, side := range shuffled(c.chance, []inventory.Side{inventory.Left, inventory.Right}) {
		if n := boots.holders.Of(side); n != nil && c.stock.weak[*n] {
			return side
		}
	}
	return oneOf(c.chance, inventory.Left, inventory.Right)
}

// replaceHolder takes a holder off its boot and rivets another one on: with the runner
// still in it, or after the steel was taken out. Then the same steel goes back in.
func (c *club) replaceHolder(boots *pair, side inventory.Side) {
	p, s := boots.owner, boots.on
	old := *boots.holders.Of(side)
	if c.chance.happens(.5) {
		c.enter(deeds.RivetOff{Holder: old})
		c.pass(2 * time.Minute)
		c.enter(deeds.TakeRunnerOut{Runner: s.of(side).number, Reason: inventory.ReasonRotate})
	} else {
		c.enter(deeds.TakeOut{Player: p.number, Pair: boots.number, Reason: inventory.ReasonRotate})
		c.pass(time.Minute)
		c.enter(deeds.RivetOff{Holder: old})
	}
	c.claim(old, p.system)
	c.pass(6 * time.Minute)
	c.rivet(boots, side)
	c.fit(boots, s)
	c.enter(deeds.Inspect{Piece: boots.number, Sound: true, Note: "after riveting"})
}

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
			Pieces: numbers{holder}, Custody: inventory.CustodyMaker, With: s.maker, Reference: reference,
			Due: inventory.At(c.now().AddDate(0, 0, claimPatient)),
		})
		c.later(c.chance.within(8*24*time.Hour, claimSlowest*24*time.Hour), func() { c.answer(holder) })
	})
}

// answer is the maker's word: mostly another holder, which comes with the next delivery.
func (c *club) answer(holder inventory.Number) {
	decision := oneOf(c.chance, inventory.DecisionReplace, inventory.DecisionReplace, inventory.DecisionCredit, inventory.DecisionRefuse)
	if c.stock.weak[holder] {
		decision = inventory.DecisionReplace
	}
	c.enter(deeds.NoteAnswer{Pieces: numbers{holder}, Decision: decision})
	c.later(c.chance.within(24*time.Hour, 10*24*time.Hour), func() {
		if decision != inventory.DecisionRefuse {
			c.enter(deeds.NoteAnswer{Pieces: numbers{holder}, Decision: inventory.DecisionSettled})
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
