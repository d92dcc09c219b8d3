package demo

import (
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// callUp brings a skater from the farm club when too many are hurt. Where he was here
// before, his history goes on.
func (c *club) callUp() {
	back := time.Duration(c.chance.between(5, callUpDays)) * 24 * time.Hour
	if c.now().Add(back + callUpsNewest).After(c.end) {
		return // nobody is at the club for a while only when the book ends
	}
	p := c.fromFarm()
	c.later(back, func() { c.sendBack(p) })
}

// fromFarm is a player who was here before, or a new one.
func (c *club) fromFarm() *player {
	if len(c.farm) > 0 && c.chance.happens(.6) {
		p := oneOf(c.chance, c.farm...)
		c.comeBack(p)
		return p
	}
	p := c.newPlayer(oneOf(c.chance, positionName(1), positionName(2)))
	p.callUp, p.turns = true, false
	p.sweater = c.freeSweater(p)
	c.join(p, "first")
	return p
}

// farmClub is where those who are called up come from.
const farmClub = "Skarn Harbour Juniors"

// comeBack is a player of the farm club who was here before. His skates were ground
// there; nobody counted the passes.
func (c *club) comeBack(p *player) {
	c.farm = slices.DeleteFunc(c.farm, func(other *player) bool { return other == p })
	p.gone, p.sweater = false, c.freeSweater(p)
	c.enter(deeds.CallUp{Name: p.name, Position: p.position, Sweater: p.sweater})
	c.players = append(c.players, p)
	c.sets[p.first.on.number] = p.first.on
	c.takeOffUnlogged(p.first.on, c.chance.between(8, 40))
	c.enter(deeds.TakeBack{Pieces: numbers{p.first.number}})
	c.pass(5 * time.Minute)
	c.enter(deeds.Inspect{Piece: p.first.number, Sound: true})
	c.measure(p, p.first)
	p.due = p.first.on.isLow()
	c.stockUp(p)
}

// sendBack is a player who goes back to the farm club with his skates.
func (c *club) sendBack(p *player) {
	if p.gone {
		return
	}
	c.settle(p)
	c.enter(deeds.HandOver{Pieces: numbers{p.first.number}, Custody: inventory.CustodyFarm, With: farmClub})
	c.enter(deeds.ChangePlayer{Player: p.number, Gone: new(true)})
	c.part(p)
	c.farm = append(c.farm, p)
}

// mendRoster calls somebody up when too many skaters are out.
func (c *club) mendRoster() {
	out, up := 0, 0
	for _, p := range c.players {
		switch {
		case p.callUp:
			up++
		case !p.goalkeeper() && !p.here(c.now()):
			out++
		}
	}
	if out-up >= callUpAt {
		c.callUp()
	}
}
