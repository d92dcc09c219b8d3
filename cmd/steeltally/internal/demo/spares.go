package demo

import (
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// keepSpare is the weekly care for a spare pair, as far as nothing is neglected.
func (c *club) keepSpare(p *player) {
	boots := p.spare
	if boots == nil || boots.on == nil || p.gone {
		return
	}
	c.levelSpare(p)
	if p.neglect != otherHollow && boots.on.hollow != p.hollow {
		c.newHollow(boots.on)
		c.pass(4 * time.Minute)
	}
	resting := c.chance.happens(restingVisits)
	if p.neglect != notGround && p.neglect != otherHollow && (boots.skated || resting) {
		c.groundOn(boots)
	}
	if c.chance.happens(bothMeasured) {
		c.measureBoth(p)
	}
	if p.neglect != notLookedAt && p.neglect != looseBolt {
		c.enter(deeds.Inspect{Piece: boots.number, Sound: true})
		c.pass(time.Minute)
	}
}

// measureBoth measures a player's first and spare pair, one after the other.
func (c *club) measureBoth(p *player) {
	p.measured = c.now()
	for _, boots := range p.shod() {
		c.measure(p, boots)
		c.pass(time.Minute)
	}
}

// spareReach is how far the steel of a spare pair may be from the first pair's.
const spareReach geometry.Millimetre = .5

// levelSpare takes low steel off a spare pair; where a ready set is nearer to the
// first pair's height than what is on, that goes on.
func (c *club) levelSpare(p *player) {
	boots := p.spare
	if p.gone || boots == nil || boots.on == nil || p.first.on == nil || p.neglect == otherHollow || p.neglect == lowSteel {
		return
	}
	if boots.on.isLow() {
		c.changeLow(boots)
		return
	}
	want := p.first.on.height()
	off := func(s *set) geometry.Millimetre { return gap(s.height(), want) }
	best := boots.on
	for _, s := range p.shelf {
		if s.ground && s.hollow == p.hollow && off(s) < off(best)-spareReach {
			best = s
		}
	}
	if best == boots.on || off(best) > spareReach {
		return
	}
	p.unshelve(best)
	c.bare(boots)
	c.fit(boots, best)
}

// trySpare is a practice, or a part of one, on the spare pair.
func (c *club) trySpare(p *player) {
	boots := p.spare
	rested := boots != nil && c.now().Sub(boots.tried) >= tryDays*24*time.Hour
	switch p.neglect {
	case notTried, missingHolder, looseBolt:
		return
	}
	if !rested || boots.on == nil || !boots.on.ground {
		return
	}
	boots.tried, boots.skated = c.now(), true
	c.enter(deeds.NoteSkated{Pair: boots.number})
	c.later(100*time.Minute, func() { c.afterTry(p, boots) })
}

// afterTry asks the player, grinds what was skated on and puts the pair in its place.
func (c *club) afterTry(p *player, boots *pair) {
	if p.gone || boots != p.spare || boots.on == nil {
		return
	}
	try := deeds.NoteTry{Pair: boots.number}
	if p.neglect == unwilling {
		try.Declined, try.Note = true, "too stiff, not yet"
	}
	c.enter(try)
	if boots.skated && p.neglect != notGround && p.neglect != otherHollow {
		c.groundOn(boots)
	}
	c.rack(boots)
}

// lags tells whether the set on the first pair of a player who has two in turn is the
// lower one by now.
func (p *player) lags() bool {
	if !p.turns || p.spare == nil || p.spare.on == nil || p.first.on == nil {
		return false
	}
	return p.first.on.height() < p.spare.on.height()-turnReach
}

// turn exchanges the sets of a player who has two in turn: the one on the first pair
// goes on the spare pair and the other way round, ground.
func (c *club) turn(p *player) {
	if p.neglect == otherHollow || p.neglect == lowSteel {
		return
	}
	c.settle(p)
	if !p.lags() {
		return
	}
	c.exchange(p)
	p.spare.skated = true
	if p.neglect != notGround {
		c.groundOn(p.spare)
	}
	p.due = p.first.on.isLow()
}

// exchange puts the set of each pair on the other.
func (c *club) exchange(p *player) {
	worn, rested := p.first.on, p.spare.on
	for _, boots := range []*pair{p.first, p.spare} {
		c.enter(deeds.TakeOut{Player: p.number, Pair: boots.number, Reason: inventory.ReasonRotate})
		boots.on = nil
	}
	c.pass(time.Minute)
	c.fit(p.first, rested)
	c.fit(p.spare, worn)
}

// worthKeeping is how far above its change height the steel that stays has to be when
// the other set of a player who has two in turn is changed.
const worthKeeping geometry.Millimetre = 1.2

// neglect is what is left undone on a player's spare pair for some weeks, so that not
// every spare pair is ready, and each for its own reason.
type neglect int

const (
	nothing neglect = iota
	notGround
	otherHollow
	lowSteel
	notLookedAt
	notTried
	looseBolt
	missingHolder
	unwilling
)

// neglects are dealt like cards to the players who are here.
func neglects() []neglect {
	return []neglect{
		notGround, otherHollow, lowSteel, notLookedAt, notTried, unwilling, looseBolt, missingHolder,
	}
}

// shuffleNeglects deals anew every six weeks, counted back from the end, so that the
// book ends with every neglect at its height.
func (c *club) shuffleNeglects(midnight time.Time) {
	days := int(c.end.Sub(midnight).Hours()/24 + .5)
	if days%neglectDays != 0 || midnight.Equal(c.calendar.dayOf(c.end)) {
		return
	}
	cards := neglects()
	for _, p := range shuffled(c.chance, c.players) {
		if p.spare == nil || p.callUp {
			continue
		}
		before := p.neglect
		p.neglect = nothing
		if len(cards) > 0 {
			p.neglect, cards = cards[0], cards[1:]
		}
		c.agenda.add(clock(midnight, 14, 30), func() { c.makeGood(p, before) })
		c.agenda.add(clock(midnight, 15, 0), func() { c.beginNeglect(p) })
	}
}

// makeGood mends what was broken and waited.
func (c *club) makeGood(p *player, before neglect) {
	switch {
	case p.gone || before == p.neglect:
	case before == missingHolder:
		c.refitSpare(p)
	case before == looseBolt:
		c.enter(deeds.Inspect{Piece: p.spare.number, Sound: true, Note: "bolt replaced"})
	}
}

// beginNeglect is how a neglect that has a beginning begins.
func (c *club) beginNeglect(p *player) {
	if p.gone || p.spare == nil || p.spare.on == nil {
		return
	}
	switch p.neglect {
	case otherHollow:
		c.changeHollow(p)
	case looseBolt:
		c.enter(deeds.ReportDamage{
			Piece: *p.spare.holders.Right, Mode: "loose-bolt", Zone: "rear-tower", Cause: "fitting", Found: "inspection",
			Note: "bolt ordered",
		})
	case missingHolder:
		c.loseHolder(p)
	}
}

// changeHollow is a player who wants another hollow: it is ground on what he skates
// on and on his ready sets; the spare pair has to wait.
func (c *club) changeHollow(p *player) {
	if p.first.on == nil {
		return
	}
	c.settle(p)
	for was := p.hollow; p.hollow == was; {
		p.hollow = c.drawHollow(p)
	}
	c.enter(deeds.NoteSpecs{Player: p.number, Specs: inventory.Specs{Hollow: new(p.hollow)}})
	c.pass(5 * time.Minute)
	c.hollowOut(p.first.on, deeds.Grind{Player: p.number})
	c.sharpened(p.first)
	for _, s := range p.shelf {
		c.pass(5 * time.Minute)
		c.newHollow(s)
	}
}

// newHollow grinds the player's hollow on a set in the hand or on the spare pair.
func (c *club) newHollow(s *set) {
	c.hollowOut(s, deeds.Grind{Set: s.number})
	s.ground, s.hollow = true, s.owner.hollow
}

func (c *club) hollowOut(s *set, deed deeds.Grind) {
	c.takeOff(s, newHollowPasses, newHollowPasses)
	deed.Work, deed.Hollow, deed.Machine = inventory.WorkNewHollow, new(s.owner.hollow), homeWheel
	deed.Passes = passes(newHollowPasses, newHollowPasses)
	c.enter(deed)
}

// loseHolder is a crack found on a spare pair while there is no holder to put on.
func (c *club) loseHolder(p *player) {
	holder := *p.spare.holders.Left
	c.enter(deeds.ReportDamage{
		Piece: holder, Mode: "crack", Zone: "front-tower", Face: "inner", Cause: "fatigue", Found: "inspection",
	})
	c.bare(p.spare)
	c.enter(deeds.RivetOff{Holder: holder})
	p.spare.holders.Left = nil
	c.claim(holder, p.system)
}

// refitSpare puts a holder and a set on a spare pair that waited for them.
func (c *club) refitSpare(p *player) {
	if p.spare.holders.Left != nil {
		return
	}
	c.rivet(p.spare, inventory.Left)
	c.fit(p.spare, c.next(p.spare))
	c.enter(deeds.Inspect{Piece: p.spare.number, Sound: true, Note: "after riveting"})
}
