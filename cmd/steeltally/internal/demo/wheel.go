package demo

import (
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

const (
	homeWheel  = "wheel 1"
	roadWheel  = "road wheel"
	profiler   = "profiler"
	leastPause = 3 * time.Minute // between two grinds of one player
)

// visit is one stop of a player's first pair at the wheel.
func (c *club) visit(p *player, wheel string) {
	if !p.onFirst(c.now()) {
		return
	}
	if free := p.lastVisit.Add(leastPause); c.now().Before(free) {
		c.agenda.add(free, func() { c.visit(p, wheel) })
		return
	}
	p.lastVisit = c.now()
	if c.chance.happens(honeShare) {
		c.note(p, c.enter(deeds.Grind{Player: p.number, Work: inventory.WorkHone}))
		return
	}
	c.grind(p, wheel)
}

// grind is a grind of what is on, usually with the usual passes.
func (c *club) grind(p *player, wheel string) {
	left, right := p.passes, p.passes
	deed := deeds.Grind{Player: p.number, Machine: wheel}
	more := inventory.Side("")
	switch luck := c.chance.Float64(); {
	case luck < extraShare:
		left += c.chance.between(1, 2)
		right = left
		deed.Passes = passes(left, right)
	case luck < extraShare+unevenShare+evenedShare:
		more = oneOf(c.chance, inventory.Left, inventory.Right)
		if more == inventory.Left {
			right++
		} else {
			left++
		}
		deed.Passes = passes(left, right)
	}
	c.takeOff(p.first.on, left, right)
	c.sharpened(p.first)
	c.log(p, deed)
	if more != "" && c.chance.happens(evenedShare/(unevenShare+evenedShare)) {
		s := p.first.on
		c.later(time.Minute, func() { c.oneMore(p, s, more, wheel) })
	}
}

// oneMore evens a grind out.
func (c *club) oneMore(p *player, s *set, side inventory.Side, wheel string) {
	if p.first.on != s || !p.onFirst(c.now()) {
		return
	}
	deed := deeds.Grind{Player: p.number, Machine: wheel, More: true}
	deed.Passes.Put(side, new(1))
	left, right := 1, 0
	if side == inventory.Right {
		left, right = 0, 1
	}
	c.takeOff(p.first.on, left, right)
	p.lastVisit = c.now()
	c.note(p, c.enter(deed))
}

// sharpened is what a pair is after a grind.
func (c *club) sharpened(boots *pair) {
	boots.skated = false
	boots.on.ground, boots.on.hollow = true, boots.owner.hollow
	if boots.role == "first" && boots.on.isLow() {
		boots.owner.due = true
	}
}

// grindTogether is the grind before a practice as one entry for many.
func (c *club) grindTogether(players []*player) {
	deed := deeds.GrindMany{Each: deeds.Grind{Machine: homeWheel}}
	for _, p := range players {
		if !p.onFirst(c.now()) || c.now().Before(p.lastVisit.Add(leastPause)) {
			continue
		}
		p.lastVisit = c.now()
		c.takeOff(p.first.on, p.passes, p.passes)
		c.sharpened(p.first)
		deed.Players = append(deed.Players, p.number)
	}
	if len(deed.Players) == 0 {
		return
	}
	events := c.enter(deed)
	for _, p := range players {
		c.note(p, events)
	}
}

// nick is work to grind damage out.
func (c *club) nick(p *player) {
	if free := p.lastVisit.Add(leastPause); c.now().Before(free) {
		c.agenda.add(free, func() { c.nick(p) })
		return
	}
	if p.onFirst(c.now()) {
		c.settle(p)
		c.grindOut(p)
	}
}

// grindOut takes more passes than usual, and more of them on the side with the damage.
func (c *club) grindOut(p *player) {
	p.lastVisit = c.now()
	steel := c.steelOf(p)
	worse := c.chance.between(steel.DamagePasses[0], steel.DamagePasses[1])
	left, right := worse, max(2, worse-c.chance.between(0, 8))
	if c.chance.happens(.5) {
		left, right = right, left
	}
	c.takeOff(p.first.on, left, right)
	c.sharpened(p.first)
	c.enter(deeds.Grind{Player: p.number, Work: inventory.WorkNick, Passes: passes(left, right), Machine: homeWheel})
}
