package demo

import (
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

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
