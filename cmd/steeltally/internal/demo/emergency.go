package demo

import (
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

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
		c.enter(deeds.Inspect{Piece: broke.on.of(side).number, Sound: true, Note: "looked at between the periods"})
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

// newSteelInGame is a runner that breaks in a game: the next set goes on.
func (c *club) newSteelInGame(p *player, side inventory.Side, damage deeds.ReportDamage, change func() *set) {
	c.enter(deeds.CallEmergency{
		Player: p.number, Side: side, Broke: deeds.BrokeRunner, Mode: damage.Mode, Zone: damage.Zone,
	})
	c.pass(time.Minute)
	next := change()
	c.enter(deeds.EndEmergency{
		Player: p.number, Did: inventory.RemedySteel, With: numbers{next.number},
		Minutes: damage.Minutes, ShiftsMissed: damage.ShiftsMissed,
	})
}
