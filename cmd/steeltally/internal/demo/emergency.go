package demo

import (
	"time"

	"steeltally/inventory"
)

// finishOnSpare is a holder that cracks in a game: nobody knows at first what broke.
// The player goes on with his spare pair, which is ground first; between the periods
// somebody looks and says what it was; then the first pair is mended.
func (c *club) finishOnSpare(p *player, side inventory.Side, damage inventory.ReportDamage) {
	broke := p.first
	broke.broken = true
	c.enter(inventory.CallEmergency{Player: p.number, Side: side})
	if p.neglect != otherHollow {
		c.groundOn(p.spare)
	}
	spare := p.spare
	c.pass(time.Minute)
	c.enter(inventory.EndEmergency{
		Player: p.number, Did: inventory.RemedySpare, With: numbers{spare.number}, Broke: inventory.BrokeHolder,
		Mode: damage.Mode, Zone: damage.Zone, Cause: damage.Cause, Minutes: damage.Minutes, ShiftsMissed: damage.ShiftsMissed,
	})
	if broke.on != nil {
		c.enter(inventory.Inspect{Piece: broke.on.of(side).number, Sound: true, Note: "looked at between the periods"})
	}
	spare.skated, spare.tried = true, c.now()
	c.later(c.chance.within(8*time.Minute, 25*time.Minute), func() {
		broke.broken = false
		if p.gone || p.first != broke || broke.on == nil || broke.holders.Of(side) == nil {
			return
		}
		c.settle(p)
		c.replaceHolder(broke, side)
		c.enter(inventory.CloseEmergency{Player: p.number, Note: "holder replaced"})
	})
}

// newSteelInGame is a runner that breaks in a game: the next set goes on.
func (c *club) newSteelInGame(p *player, side inventory.Side, damage inventory.ReportDamage, change func() *set) {
	c.enter(inventory.CallEmergency{
		Player: p.number, Side: side, Broke: inventory.BrokeRunner, Mode: damage.Mode, Zone: damage.Zone,
	})
	c.pass(time.Minute)
	next := change()
	c.enter(inventory.EndEmergency{
		Player: p.number, Did: inventory.RemedySteel, With: numbers{next.number},
		Minutes: damage.Minutes, ShiftsMissed: damage.ShiftsMissed,
	})
}
