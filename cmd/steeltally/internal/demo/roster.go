package demo

import (
	"slices"
	"time"

	"steeltally/inventory"
)

// join enters a player with his specs, boots and steel.
func (c *club) join(p *player, roles ...string) {
	c.sign(p)
	for _, role := range roles {
		c.pass(6 * time.Minute)
		c.giveBoots(p, role)
	}
	c.stockUp(p)
}

// sign enters a player with his specs.
func (c *club) sign(p *player) {
	events := c.enter(inventory.AddPlayer{Name: p.name, Position: p.position, Sweater: p.sweater})
	p.number = bodyOf[inventory.PlayerNoted](events).Player
	c.enter(inventory.NoteSpecs{Player: p.number, Specs: c.specs(p)})
	c.players = append(c.players, p)
	c.everybody = append(c.everybody, p)
}

// giveBoots gives a player boots in a role with a set on them.
func (c *club) giveBoots(p *player, role string) {
	boots := c.addPair(p, role)
	switch role {
	case "first":
		p.first = boots
	case "spare":
		p.spare = boots
	}
	c.fit(boots, c.prepare(p))
}

// leave is a player who leaves the club with what is on his boots. His ready sets stay
// and are matched anew for others.
func (c *club) leave(p *player) {
	c.settle(p)
	p.gone, p.due = true, false
	c.enter(inventory.ChangePlayer{Player: p.number, Gone: new(true)})
	c.players = slices.DeleteFunc(c.players, func(other *player) bool { return other == p })
	for _, s := range p.shelf {
		c.retire(s, s.left, s.right)
	}
	p.shelf = nil
	for _, boots := range []*pair{p.first, p.spare} {
		if boots != nil && boots.on != nil {
			c.retire(boots.on)
		}
	}
}

// summer is the time at which contracts end and the oldest loose steel is given away.
func (c *club) summer() {
	c.stock.loose = c.stock.loose[max(0, len(c.stock.loose)-looseKept):]
	skaters := slices.DeleteFunc(slices.Clone(c.players), (*player).goalkeeper)
	for _, p := range shuffled(c.chance, skaters)[:min(summerLeaves, len(skaters))] {
		c.leaveLater(p)
	}
	keepers := slices.DeleteFunc(slices.Clone(c.players), func(p *player) bool { return !p.goalkeeper() })
	if c.chance.happens(keeperLeaves) && len(keepers) > 0 {
		c.leaveLater(oneOf(c.chance, keepers...))
	}
}

// looseKept is how many used runners without a set are kept over a summer.
const looseKept = 60

func (c *club) leaveLater(p *player) {
	c.later(c.chance.within(9*time.Hour, 10*24*time.Hour), func() {
		if !p.gone {
			c.leave(p)
		}
	})
}

// fill signs players until the roster is full again.
func (c *club) fill() {
	for position, count := range lineup() {
		have := 0
		for _, p := range c.players {
			if p.position == positionName(position) && !p.callUp {
				have++
			}
		}
		for ; have < count; have++ {
			c.join(c.newPlayer(positionName(position)), "first", "spare")
		}
	}
}

// lineup is how many players of each position a full roster has.
func lineup() [3]int { return [3]int{goalkeepers, defenders, forwards} }

func positionName(position int) string { return inventory.Positions()[position] }

// trade is a player who goes to another club; a newcomer takes his place the next day.
func (c *club) trade() {
	skaters := slices.DeleteFunc(c.here(), func(p *player) bool { return p.goalkeeper() || p.callUp })
	if len(skaters) == 0 {
		return
	}
	p := oneOf(c.chance, skaters...)
	c.leave(p)
	c.later(26*time.Hour, func() { c.join(c.newPlayer(p.position), "first", "spare") })
}
