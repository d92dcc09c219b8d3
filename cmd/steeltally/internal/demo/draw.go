package demo

import (
	"math"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/wear/truth"
)

// newPlayer draws a player who never was here.
func (c *club) newPlayer(position string) *player {
	p := &player{name: c.namer.name(), position: position, rank: c.chance.Float64()}
	p.wear = c.steelOf(p).NewPlayer(c.chance.Rand)
	c.drawBoots(p)
	c.drawUse(p)
	c.drawSpecs(p)
	p.sweater = c.freeSweater(p)
	return p
}

// steelOf is the truth of a player's sort of steel.
func (c *club) steelOf(p *player) truth.Club {
	if p.goalkeeper() {
		return c.keepers
	}
	return c.skaters
}

func (c *club) drawBoots(p *player) {
	size := min(max(int(math.Round(3+1.1*c.chance.NormFloat64())), 0), len(sizes())-1)
	p.left = sizes()[size]
	p.right = p.left
	switch {
	case p.goalkeeper():
		p.system, p.left, p.right = c.auk, 280, 280
	case c.chance.happens(.6):
		p.system = c.skua
	default:
		p.system = c.petrel
	}
	if !p.goalkeeper() && c.chance.happens(.04) && size > 0 {
		p.right = sizes()[size-1]
	}
}

func (c *club) drawUse(p *player) {
	p.turns = c.chance.happens(turnsShare)
	if p.goalkeeper() {
		p.practice, p.game = keeperPractice, keeperGame
		return
	}
	appetite := c.appetite()
	p.practice, p.game = practiceVisits*appetite, min(gameVisits*appetite, mostInGame)
}

// appetite is how often a skater comes to the wheel against the mean. It is dealt from
// a deck with as many light and heavy users as the spread says, so that the size of the
// book does not hang on a few players.
func (c *club) appetite() float64 {
	if len(c.appetites) == 0 {
		for i := range defenders + forwards {
			share := (float64(i) + .5) / (defenders + forwards)
			normal := math.Sqrt2 * math.Erfinv(2*share-1)
			c.appetites = append(c.appetites, min(max(math.Exp(appetiteSpread*normal), leastAppetite), mostAppetite))
		}
		c.appetites = shuffled(c.chance, c.appetites)
	}
	dealt := c.appetites[0]
	c.appetites = c.appetites[1:]
	return dealt
}

// drawSpecs draws passes, hollow and change height; profile and pitch are only noted.
func (c *club) drawSpecs(p *player) {
	if p.goalkeeper() {
		p.passes, p.low, p.hollow = c.chance.between(3, 4), keepersLow, c.drawHollow(p)
		return
	}
	p.passes = oneOf(c.chance, 4, 4, 5, 5, 5, 5, 6)
	p.hollow = c.drawHollow(p)
	p.low = c.skaters.ChangeHeight + oneOf[geometry.Millimetre](c.chance, -.3, 0, 0, 0, .3)
}

// drawHollow draws a hollow: a goalkeeper's is flat, of 28 ft or at times an inch.
func (c *club) drawHollow(p *player) inventory.Cut {
	inch, foot := geometry.Inch(1).Millimetres(), geometry.Inch(12).Millimetres()
	if p.goalkeeper() {
		return inventory.Cut{Radius: oneOf(c.chance, 28*foot, 28*foot, 28*foot, inch)}
	}
	if c.chance.happens(.06) {
		return inventory.Cut{FlatWidth: 2.3, EdgeHeight: .04}
	}
	sixteenths := oneOf(c.chance, 6, 7, 8, 8, 8, 9, 10, 10, 12, 16)
	return inventory.Cut{Radius: geometry.Millimetre(sixteenths) / 16 * inch}
}

// specs are what is noted of a new player.
func (c *club) specs(p *player) inventory.Specs {
	foot := geometry.Inch(12).Millimetres()
	specs := inventory.Specs{
		Hollow: new(p.hollow), Passes: new(p.passes), ChangeHeight: new(p.low),
		Profile: inventory.Profile{foot * oneOf[geometry.Millimetre](c.chance, 9, 10, 10, 11, 11, 12, 13)},
	}
	switch {
	case p.goalkeeper():
		specs.Profile = inventory.Profile{foot * oneOf[geometry.Millimetre](c.chance, 27, 28, 30)}
	case c.chance.happens(.15):
		specs.Profile = inventory.Profile{9 * foot, 13 * foot}
	}
	specs.Pitch = new(oneOf[geometry.Millimetre](c.chance, 0, 0, 0, .8, 1.5, -.8))
	return specs
}
