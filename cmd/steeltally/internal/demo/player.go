package demo

import (
	"fmt"
	"math"
	"slices"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/wear/truth"
)

// player is one player as he truly is, with what he has.
type player struct {
	number   inventory.Number
	name     string
	position string
	sweater  int
	system   *system
	left     int // sizes of the boots
	right    int
	passes   int // usual
	hollow   inventory.Cut
	low      geometry.Millimetre // change height
	wear     truth.Player
	practice float64 // mean visits to the wheel
	game     float64
	rank     float64 // the lowest skaters are left out of games
	turns    bool    // two sets in turn, one of them on the spare pair

	first, spare, third *pair
	shelf               []*set    // ready sets
	due                 bool      // first steel is low
	lastVisit           time.Time // to the wheel
	away                time.Time // hurt or at the farm club until then
	looked              time.Time // last look at the first pair
	asked               time.Time // not to be asked to change before
	measured            time.Time
	neglect             neglect
	story               *story // what is in the record otherwise than it is
	gone, callUp        bool
	tryOut              bool
	removed             *set // the last set that was taken off for good
}

func (p *player) goalkeeper() bool { return p.position == "goalkeeper" }

func (p *player) size(side inventory.Side) int {
	if side == inventory.Right {
		return p.right
	}
	return p.left
}

// here tells whether a player skates with the club at a time.
func (p *player) here(at time.Time) bool { return !p.gone && !at.Before(p.away) }

// onFirst tells whether a player skates on his first pair at a time.
func (p *player) onFirst(at time.Time) bool {
	return p.here(at) && p.first != nil && p.first.on != nil && !p.first.broken
}

// shod are his pairs with steel on, the first before the spare.
func (p *player) shod() []*pair {
	return slices.DeleteFunc([]*pair{p.first, p.spare}, func(boots *pair) bool { return boots == nil || boots.on == nil })
}

// wants is how many ready sets a player should have.
func (p *player) wants() int {
	switch {
	case p.callUp:
		return 1
	case p.practice > 1.25*practiceVisits:
		return heavyShelf
	}
	return shelfSets
}

// alwaysWorn are the sweaters that the examples of the commands' help name.
func alwaysWorn() []int { return []int{7, 8, 17, 19} }

// freeSweater is a number that nobody who is here wears.
func (c *club) freeSweater(p *player) int {
	worn := map[int]bool{}
	for _, other := range c.players {
		worn[other.sweater] = true
	}
	for _, n := range alwaysWorn() {
		if !worn[n] && !p.goalkeeper() && !p.callUp {
			return n
		}
	}
	from, until := 2, 29
	switch {
	case p.goalkeeper():
		from, until = 30, 39
	case p.callUp:
		from, until = 60, 79
	}
	for range 60 {
		if n := c.chance.between(from, until); !worn[n] {
			return n
		}
	}
	for n := 40; n <= 99; n++ {
		if !worn[n] {
			return n
		}
	}
	return 0
}

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

// The people and places of Skarn Harbour. No person is meant by any of them.

const (
	clubName = "Skarn Harbour Terns"
	zoneName = "Atlantic/Faroe"
	station  = 1
)

// staff write in the book.
func staff() []string { return []string{"Runa Holveqvarn", "Bo Terskimyrd"} }

// towns are where the other clubs of the league play.
func towns() []string {
	return []string{
		"Rime Point", "Kettle Bight", "Ostervane", "Brackmouth", "Selkie Ness", "Ironvoe",
		"Marrowgate", "Glimmerholm", "Saltmarrow", "Tarnholt", "Whinfallow Quay", "Dunmarrow",
	}
}

// firstNames returns the names that players are given.
func firstNames() []string {
	return []string{
		"Aki", "Alvar", "Anders", "Ansgar", "Ari", "Aron", "Askel", "Bastian", "Birk", "Bjarni", "Brage", "Callum",
		"Casper", "Cedric", "Corin", "Dagfinn", "Danylo", "Dário", "Davor", "Edvin", "Eilif", "Einar", "Eirik", "Elias",
		"Émile", "Emrys", "Endre", "Fabrice", "Felix", "Finn", "Florian", "Frode", "Gaspar", "Gisli", "Håkon", "Halvar",
		"Hamish", "Henrik", "Iago", "Ilja", "Ingvar", "Ivo", "Jarl", "Joakim", "Jonas", "Jörn", "Kaspar", "Kjell",
		"Konrad", "Lars", "Leif", "Lorcan", "Luka", "Mads", "Magnus", "Marek", "Matti", "Mikkel", "Milo", "Nico",
		"Nils", "Odd", "Olav", "Oskar", "Øyvind", "Pål", "Pavel", "Piet", "Rasmus", "René", "Roald", "Ruben",
		"Rurik", "Sander", "Sigurd", "Simon", "Soren", "Stellan", "Sverre", "Tancred", "Teodor", "Tiago", "Tjark", "Torben",
		"Trygve", "Tuomas", "Ulrik", "Valdemar", "Vidar", "Viktor", "Wilmar", "Yann", "Zdenko",
	}
}

// surnames puts two halves together that no place, maker or family that we know of puts
// together.
func surnames() []string {
	fronts := []string{
		"Ask", "Brask", "Brim", "Dalv", "Eldr", "Fjarl", "Frosk", "Grå", "Hvesk", "Holv", "Isk", "Kaldr",
		"Klipsk", "Kvelm", "Lomv", "Mork", "Mosk", "Nordr", "Ravl", "Rimsk", "Saltr", "Sanv", "Skarn", "Skjol",
		"Stavr", "Stirm", "Sunv", "Svarsk", "Tindr", "Tornv", "Ulvr", "Vinsk", "Ørnv", "Åkv",
	}
	backs := []string{"aløy", "eqvarn", "imyrd", "urusk", "avask", "ikrånd", "otvell", "eskerl", "agvist", "idrømt", "ubrekk", "ovell"}
	var names []string
	for _, front := range fronts {
		for _, back := range backs {
			names = append(names, front+back)
		}
	}
	return names
}

// firstOfAll are the names that no book does without: accents, marks and length are
// what tags and tables have to cope with.
func firstOfAll() []string {
	return []string{
		"René Frémontel", "Søren Øksnesvoll", "Íñigo Peñarrubal", "Zoltán Kőszirom-Szélány",
		"Maximilian-Théodore Vandersteenhoven-Østbyfjord", "O'Quell D'Arquen", "Bo Yx",
	}
}

// namer gives every player a name that nobody had before.
type namer struct {
	chance chance
	given  map[string]bool
	first  []string
}

func newNamer(c chance) *namer { return &namer{c, map[string]bool{}, firstOfAll()} }

func (n *namer) name() string {
	if len(n.first) > 0 {
		name := n.first[0]
		n.first = n.first[1:]
		return name
	}
	for try := 1; ; try++ {
		name := oneOf(n.chance, firstNames()...) + " " + oneOf(n.chance, surnames()...)
		if try > 100 {
			name = fmt.Sprintf("%s %d", name, len(n.given))
		}
		if !n.given[name] {
			n.given[name] = true
			return name
		}
	}
}
