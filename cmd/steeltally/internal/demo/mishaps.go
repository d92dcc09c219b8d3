package demo

import (
	"math"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// risk draws what goes wrong with a player's first pair in one session.
func (c *club) risk(p *player, start time.Time, length time.Duration, found string) {
	if p.first.on == nil {
		return
	}
	plan := func(probability float64, run func()) {
		if c.chance.happens(probability) {
			c.agenda.add(start.Add(c.chance.within(0, length)), func() {
				if p.onFirst(c.now()) {
					run()
				}
			})
		}
	}
	plan(c.steelRisk(p), func() { c.breakSteel(p, found) })
	plan(c.holderRisk(p), func() { c.crackHolder(p, found) })
	plan(looseRisk, func() { c.loosen(p, found) })
	plan(c.steelOf(p).DamageShare, func() { c.nick(p) })
	plan(hurtShare, func() { p.away = c.now().Add(time.Duration(c.chance.between(2, hurtMost)) * 24 * time.Hour) })
}

// steelRisk grows as the steel gets low.
func (c *club) steelRisk(p *player) float64 {
	above := float64(p.first.on.height() - p.low)
	return steelRisk * math.Exp(riskGrowth*(riskHeight-above))
}

// holderRisk is that of both holders; one lot's are weak.
func (c *club) holderRisk(p *player) float64 {
	risk := 0.0
	for _, n := range p.first.holders.Each {
		if c.stock.weak[*n] {
			risk += holderRisk / 2 * weakLotFactor
		} else {
			risk += holderRisk / 2
		}
	}
	return risk
}

// breakSteel is a runner that breaks, cracks, bends or chips. Its mate is fine.
func (c *club) breakSteel(p *player, found string) {
	c.settle(p)
	side := oneOf(c.chance, inventory.Left, inventory.Right)
	mode := oneOf[inventory.Mode](c.chance, "break", "break", "crack", "bend", "chip", "chip")
	damage := c.damageOf(p.first.on.of(side).number, mode, found)
	switch {
	case mode == "chip" && c.chance.happens(mendedChips):
		c.enter(damage)
		c.pass(leastPause)
		c.grindOut(p)
		c.enter(deeds.Inspect{Piece: damage.Piece, Sound: true, Note: "chip ground out"})
	case mode != "chip" && found == "game":
		c.enter(deeds.CallEmergency{Player: p.number, Side: side, Broke: deeds.BrokeRunner, Mode: mode, Zone: damage.Zone})
		c.pass(time.Minute)
		next := c.replaceSteel(p, side, mode)
		c.enter(deeds.EndEmergency{
			Player: p.number, Did: inventory.RemedySteel, With: numbers{next.number},
			Minutes: damage.Minutes, ShiftsMissed: damage.ShiftsMissed,
		})
	default:
		c.enter(damage)
		c.replaceSteel(p, side, mode)
	}
}

// replaceSteel takes a set with a broken runner off and puts the next one on.
func (c *club) replaceSteel(p *player, side inventory.Side, mode inventory.Mode) *set {
	s, next := p.first.on, c.next(p.first)
	reason := map[inventory.Mode]inventory.Reason{
		inventory.ModeBreak: inventory.ReasonBroken, inventory.ModeCrack: inventory.ReasonCracked,
		inventory.ModeBend: inventory.ReasonBent, inventory.ModeChip: inventory.ReasonChipped,
	}[mode]
	c.swap(p.first, deeds.TakeOut{Player: p.number, Reason: reason, Place: c.removedBin()}, next)
	c.broken = append(c.broken, s.of(side).number)
	c.retire(s, s.of(side.Other()))
	p.due = false
	c.later(c.chance.within(time.Hour, 12*time.Hour), func() { c.levelSpare(p) })
	return next
}

// damageOf is the report of a broken runner, with what people know of it.
func (c *club) damageOf(n inventory.Number, mode inventory.Mode, found string) deeds.ReportDamage {
	damage := deeds.ReportDamage{
		Piece: n, Mode: mode, Found: found,
		Zone:  oneOf[inventory.Zone](c.chance, "toe", "toe", "middle", "front-tower", "rear-tower", "heel", "edge"),
		Face:  oneOf(c.chance, "inner", "outer", "unknown"),
		Cause: oneOf(c.chance, "puck", "puck", "puck", "skate", "stick", "boards", "fall", "unknown"),
	}
	if found == "game" {
		damage.ShiftsMissed = new(c.chance.between(0, 4))
	}
	if c.chance.happens(.8) {
		damage.Minutes = new(math.Round(10*math.Exp(.6*c.chance.NormFloat64()+.4)) / 10)
	}
	return damage
}

// loosen is a rivet or a bolt that came loose; it is mended after the session.
func (c *club) loosen(p *player, found string) {
	side := oneOf(c.chance, inventory.Left, inventory.Right)
	holder := p.first.holders.Of(side)
	if holder == nil {
		return
	}
	c.enter(deeds.ReportDamage{
		Piece: *holder, Mode: oneOf[inventory.Mode](c.chance, "loose-rivet", "loose-rivet", "loose-bolt"),
		Zone: oneOf[inventory.Zone](c.chance, "front-tower", "rear-tower", "rear-tower"), Found: found, Minutes: new(float64(c.chance.between(1, 9))),
	})
	mended := *holder
	c.later(c.chance.within(20*time.Minute, 3*time.Hour), func() {
		if on := p.first.holders.Of(side); on != nil && *on == mended && !p.gone {
			c.enter(deeds.Inspect{Piece: mended, Sound: true, Note: "tightened"})
		}
	})
}

// finishOnSpare is a holder that cracks in a game: nobody knows at first what broke.
// The player goes on with his spare pair, which is ground first; between the periods
// somebody looks and says what it was; then the first pair is mended.
func (c *club) finishOnSpare(p *player, side inventory.Side, damage deeds.ReportDamage) {
	broke := p.first
	broke.broken = true
	c.enter(deeds.CallEmergency{Player: p.number, Side: side})
	if p.neglect != otherHollow {
		c.groundOn(p.spare)
	}
	spare := p.spare
	c.pass(time.Minute)
	c.enter(deeds.EndEmergency{
		Player: p.number, Did: inventory.RemedySpare, With: numbers{spare.number}, Broke: deeds.BrokeHolder,
		Mode: damage.Mode, Zone: damage.Zone, Cause: damage.Cause, Minutes: damage.Minutes, ShiftsMissed: damage.ShiftsMissed,
	})
	if broke.on != nil {
		runner := broke.on.of(side).number
		c.enter(deeds.Inspect{Piece: runner, Sound: true, Note: "looked at between the periods", Sure: numbers{runner}})
	}
	spare.skated, spare.tried = true, c.now()
	c.later(c.chance.within(8*time.Minute, 25*time.Minute), func() {
		broke.broken = false
		if p.gone || p.first != broke || broke.on == nil || broke.holders.Of(side) == nil {
			return
		}
		c.settle(p)
		c.replaceHolder(broke, side)
		c.enter(deeds.CloseEmergency{Player: p.number, Note: "holder replaced"})
	})
}

const (
	trialWeek    = 10 // of the season: two players try undeclared steel
	trialDays    = 6
	wrongDamages = .02 // damages reported of the wrong piece, a session day
	dayOfTrade   = time.Tuesday
	trialNew     = geometry.Millimetre(21)
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
	steel := c.enrol(c.enter(deeds.StockIn{
		Piece: inventory.KindRunner, Model: trialModel, Size: p.left, Count: 2, Thickness: 2.9,
		Height: new(trialNew), Order: "trial",
	}), key, trialNew)
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
	if !p.gone {
		c.settle(p)
	}
	if p.gone || p.first.on != tried || c.sets[old.number] == nil || p.spare != nil && p.spare.on == old {
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
