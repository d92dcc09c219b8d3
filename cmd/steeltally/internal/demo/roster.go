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
		c.fit(c.addPair(p, role), c.prepare(p))
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
	p.number = bodyOf[inventory.PlayerNoted](c.enter(deed)).Player
	c.pass(time.Minute)
	c.enter(deeds.NoteSpecs{Player: p.number, Specs: c.specs(p)})
	c.players = append(c.players, p)
	c.everybody = append(c.everybody, p)
}

// leave is a player who leaves the club with his skates. What the club keeps is matched
// anew for others: his ready sets, and half the time the steel on his boots.
func (c *club) leave(p *player) {
	if p.gone {
		return
	}
	c.settle(p)
	steelOff := !p.tryOut && c.chance.happens(.5)
	to := oneOf(c.chance, towns()...)
	if p.tryOut {
		to = "home after the camp"
	}
	c.enter(deeds.Trade{Player: p.number, To: to, SteelOff: steelOff})
	c.part(p)
	for _, boots := range p.shod() {
		if steelOff {
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
	for _, boots := range p.shod() {
		c.retire(boots.on)
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
	c.later(c.chance.within(9*time.Hour, 10*24*time.Hour), func() { c.leave(p) })
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

// campPrepares is how many days before the camp the staff get ready for it.
const campPrepares = 4

// prepareCamp posts the season, signs the newcomers, gives everybody boots, and takes
// in some who try out in numbers that others wear.
func (c *club) prepareCamp(s season) {
	day := s.camp.AddDate(0, 0, -campPrepares)
	c.farm = nil
	c.agenda.add(clock(day, 7, 0), func() { c.post(s) })
	c.agenda.add(clock(day, 8, 0), c.fill)
	for _, p := range slices.Clone(c.players) {
		c.agenda.add(clock(day.AddDate(0, 0, 1), 7, 0), func() {
			if !p.gone && p.spare != nil {
				c.newBoots(p)
				c.putOn(p)
			}
		})
	}
	for range campTryouts {
		c.agenda.add(clock(day.AddDate(0, 0, 2), 9, 0), c.tryOut)
	}
}

// putOn puts steel on the pairs of a player that are bare.
func (c *club) putOn(p *player) {
	for _, boots := range []*pair{p.first, p.spare} {
		if boots != nil && boots.on == nil && boots.holders.Left != nil {
			c.fit(boots, c.next(boots))
		}
	}
	c.stockUp(p)
}

// tryOut is a player who comes to the camp only, in a number that is worn.
func (c *club) tryOut() {
	here := c.here()
	if len(here) == 0 {
		return
	}
	p := c.newPlayer(oneOf(c.chance, positionName(1), positionName(2)))
	p.callUp, p.tryOut, p.turns = true, true, false
	p.sweater = oneOf(c.chance, here...).sweater
	c.join(p, "first")
}

// endCamp sends those home who came to the camp only.
func (c *club) endCamp() {
	for _, p := range slices.Clone(c.players) {
		if p.tryOut {
			c.later(7*time.Hour, func() { c.leave(p) })
		}
	}
}

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
