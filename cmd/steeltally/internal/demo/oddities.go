package demo

import (
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

const (
	trialWeek    = 10 // of the season: two players try undeclared steel
	trialDays    = 6
	wrongDamages = .02 // damages reported of the wrong piece, a session day
	dayOfTrade   = time.Tuesday
	trialNew     = geometry.Millimetre(21)
	trialOrder   = "trial"
)

// strangeDays are what happens once a season or now and then.
func (c *club) strangeDays(midnight time.Time, s season) {
	week := int(midnight.Sub(s.camp).Hours()/24+.5) / 7
	switch {
	case week == tradeWeek && midnight.Weekday() == dayOfTrade:
		c.agenda.add(clock(midnight, 17, 0), c.trade)
	case week == trialWeek && midnight.Weekday() == dayOfTrade:
		c.agenda.add(clock(midnight, 8, 0), c.trial)
	}
	if c.chance.happens(postponements) {
		c.agenda.add(clock(midnight, 11, 55), c.postpone)
	}
	if c.chance.happens(wrongDamages) {
		c.agenda.add(clock(midnight, 12, 20), c.wrongDamage)
	}
}

// trial lets two players skate some days on steel that nobody has declared.
func (c *club) trial() {
	count := 0
	for _, p := range shuffled(c.chance, c.here()) {
		if count < 2 && p.system == c.skua && p.left == p.right && !p.callUp && p.first.on.ground {
			count++
			c.tryModel(p)
		}
	}
}

func (c *club) tryModel(p *player) {
	c.settle(p)
	key := stockKey{&system{runner: trialModel, height: trialNew}, p.left}
	events := c.enter(deeds.StockIn{
		Piece: inventory.KindRunner, Model: trialModel, Size: p.left, Count: 2, Thickness: 2.9,
		Height: new(trialNew), Order: trialOrder,
	})
	steel := c.enrol(events, key, trialNew)
	if len(steel) < 2 {
		return
	}
	tried := c.match(p, steel[0], steel[1])
	c.groundInHand(tried)
	old := p.first.on
	c.swap(p.first, deeds.TakeOut{Player: p.number, Reason: inventory.ReasonTrial, Place: steelShelf(p)}, tried)
	p.shelf = append(p.shelf, old)
	c.later(trialDays*24*time.Hour, func() { c.endTrial(p, tried, old) })
}

// endTrial puts the player's own steel back on where the trial steel still is on.
func (c *club) endTrial(p *player, tried, old *set) {
	if p.gone || p.first.on != tried || c.sets[old.number] == nil || p.spare != nil && p.spare.on == old {
		return
	}
	c.settle(p)
	if p.first.on != tried {
		return
	}
	p.unshelve(old)
	c.swap(p.first, deeds.TakeOut{Player: p.number, Reason: inventory.ReasonTrial, Place: steelShelf(p)}, old)
	p.shelf = append(p.shelf, tried)
}

// wrongDamage is a damage noted of the wrong piece: it is taken back at once.
func (c *club) wrongDamage() {
	if p := c.anybody((*player).inOrder); p != nil {
		events := c.enter(c.damageOf(p.first.on.of(inventory.Left).number, "chip", "grinding"))
		c.pass(time.Minute)
		c.enter(deeds.Undo{Events: events, Words: "wrong piece"})
	}
}
