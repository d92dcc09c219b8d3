package demo

import (
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
		c.enter(deeds.TakeRunnerOut{Runner: s.of(side).number, Reason: "rotate"})
	} else {
		c.enter(deeds.TakeOut{Player: p.number, Pair: boots.number, Reason: "rotate"})
		c.pass(time.Minute)
		c.enter(deeds.RivetOff{Holder: old})
	}
	c.claim(old, p.system)
	c.pass(6 * time.Minute)
	c.rivet(boots, side)
	c.fit(boots, s)
	c.enter(deeds.Inspect{Piece: boots.number, Sound: true, Note: "after riveting"})
}
