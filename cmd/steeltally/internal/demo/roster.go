package demo

import (
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// join enters a player with his specs, boots and steel.
func (c *club) join(p *player, roles ...inventory.Role) {
	c.sign(p)
	for _, role := range roles {
		c.pass(6 * time.Minute)
		c.giveBoots(p, role)
	}
	c.stockUp(p)
}

// sign enters a player with his specs. Of one who is called up little is known before
// his skates arrive.
func (c *club) sign(p *player) {
	var deed deeds.Deed = deeds.AddPlayer{Name: p.name, Position: p.position, Sweater: p.sweater}
	if p.callUp && !p.tryOut {
		deed = deeds.CallUp{
			Name: p.name, Position: p.position, Sweater: p.sweater, Family: p.system.family,
			Sizes: inventory.Both[int]{Left: &p.left, Right: &p.right}, Unknown: []string{"hollow"},
		}
	}
	events := c.enter(deed)
	p.number = bodyOf[inventory.PlayerNoted](events).Player
	c.pass(time.Minute)
	c.enter(deeds.NoteSpecs{Player: p.number, Specs: c.specs(p)})
	c.players = append(c.players, p)
	c.everybody = append(c.everybody, p)
}

// giveBoots gives a player boots in a role with a set on them.
func (c *club) giveBoots(p *player, role inventory.Role) {
	boots := c.addPair(p, role)
	switch role {
	case "first":
		p.first = boots
	case "spare":
		p.spare = boots
	}
	c.fit(boots, c.prepare(p))
}

// leave is a player who leaves the club with his skates. What the club keeps is matched
// anew for others: his ready sets, and half the time the steel on his boots.
func (c *club) leave(p *player) {
	c.settle(p)
	steelOff := !p.tryOut && c.chance.happens(.5)
	to := oneOf(c.chance, towns()...)
	if p.tryOut {
		to = "home after the camp"
	}
	c.enter(deeds.Trade{Player: p.number, To: to, SteelOff: steelOff})
	c.part(p)
	for _, boots := range []*pair{p.first, p.spare} {
		if steelOff && boots != nil && boots.on != nil {
			c.stock.lay(boots.on.left, boots.on.right)
			boots.on = nil
		}
	}
}

// part is what leaving means for the simulator.
func (c *club) part(p *player) {
	p.gone, p.due = true, false
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

// summer is the time at which contracts end, broken pieces are thrown away and the oldest loose steel
// is forgotten.
func (c *club) summer() {
	c.stock.loose = c.stock.loose[max(0, len(c.stock.loose)-looseKept):]
	c.scrapBroken()
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

// trade is a player who goes to another club amid the season; a newcomer takes his place
// the next day.
func (c *club) trade() {
	if c.now().AddDate(0, 0, 3).After(c.end) {
		return // his place would still be empty
	}
	skaters := slices.DeleteFunc(c.here(), func(p *player) bool { return p.goalkeeper() || p.callUp })
	if len(skaters) == 0 {
		return
	}
	p := oneOf(c.chance, skaters...)
	c.leave(p)
	c.later(26*time.Hour, func() { c.join(c.newPlayer(p.position), "first", "spare") })
}
