package demo

import (
	"fmt"
	"slices"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// stockroom is the steel and the holders that nobody has.
type stockroom struct {
	fresh    map[stockKey][]*runner
	loose    []*runner // used, without a set of its own: mates of broken steel, steel of players who left
	holders  map[holderKey][]inventory.Number
	ordered  map[stockKey]bool
	delivery int
	weakLot  string // the lot of holders that crack
	weak     map[inventory.Number]bool
}

type stockKey struct {
	system *system
	size   int
}

type holderKey struct {
	stockKey
	side inventory.Side
}

func newStockroom() *stockroom {
	return &stockroom{
		fresh: map[stockKey][]*runner{}, holders: map[holderKey][]inventory.Number{},
		ordered: map[stockKey]bool{}, weak: map[inventory.Number]bool{},
	}
}

const (
	leastFresh = 4 // runners of a size, below which more are ordered
	orderSize  = 6
	expressOf  = 4
)

// receive takes a delivery of new runners in.
func (c *club) receive(key stockKey, count int) {
	c.stock.fresh[key] = append(c.stock.fresh[key], c.enrol(c.count(key, count), key, key.system.height)...)
	c.stock.ordered[key] = false
}

// enrol follows the runners that were just stocked in at a height.
func (c *club) enrol(events []inventory.Event, key stockKey, height geometry.Millimetre) (steel []*runner) {
	for _, n := range bodyOf[inventory.StockedIn](events).Pieces {
		c.runners[n] = &runner{number: n, key: key, nominal: height}
		steel = append(steel, c.runners[n])
	}
	return steel
}

// count enters a delivery of new runners.
func (c *club) count(key stockKey, count int) []inventory.Event {
	lot, order := c.nextDelivery(key.system)
	return c.enter(deeds.StockIn{
		Piece: inventory.KindRunner, Model: key.system.runner, Size: key.size, Count: count, Lot: lot, Order: order,
		Place: &inventory.Place{Name: "steel cabinet", Slot: fmt.Sprint(key.size)},
	})
}

// nextDelivery names a lot, which several deliveries can share, and an order.
func (c *club) nextDelivery(s *system) (lot, order string) {
	c.stock.delivery++
	quarter := (int(c.now().Month()) + 2) / 3
	lot = fmt.Sprintf("%c%s-%d", s.runner[0], c.now().Format("06"), quarter)
	return lot, fmt.Sprintf("PO-%d", 4100+c.stock.delivery)
}

// fresh takes one new runner out of stock and orders more in time.
func (c *club) fresh(key stockKey) *runner {
	r, ok := take(c.stock.fresh, key, func() { c.receive(key, expressOf) })
	if !ok {
		return &runner{key: key} // nothing was recorded: the run is over
	}
	if len(c.stock.fresh[key]) < leastFresh && !c.stock.ordered[key] {
		c.stock.ordered[key] = true
		c.later(time.Duration(c.chance.between(4, 8))*24*time.Hour, func() { c.deliver(key) })
	}
	return r
}

// take takes the first piece of a sort, after a delivery where there is none.
func take[K comparable, V any](store map[K][]V, key K, deliver func()) (piece V, ok bool) {
	if len(store[key]) == 0 {
		deliver()
	}
	if ok = len(store[key]) > 0; ok {
		piece, store[key] = store[key][0], store[key][1:]
	}
	return piece, ok
}

// deliver is a delivery; one that is counted wrongly at first is taken back before any of
// it is used.
func (c *club) deliver(key stockKey) {
	if c.chance.happens(wrongCounts) {
		events := c.count(key, orderSize-2)
		c.pass(3 * time.Minute)
		c.enter(deeds.Undo{Events: events, Words: "counted wrongly"})
		c.pass(time.Minute)
	}
	c.receive(key, orderSize)
}

// steelFor finds a left and a right runner for a player: two used ones that go
// together, a mate of broken steel with a new one, or two new ones.
func (c *club) steelFor(p *player) (left, right *runner) {
	keyLeft, keyRight := stockKey{p.system, p.left}, stockKey{p.system, p.right}
	for _, l := range c.stock.loose {
		for _, r := range c.stock.loose {
			if l.key == keyLeft && r.key == keyRight && c.goTogether(p, l, r) {
				c.stock.giveOut(l, r)
				return l, r
			}
		}
	}
	for _, mate := range c.stock.loose {
		fits := mate.side == inventory.Left && mate.key == keyLeft || mate.side == inventory.Right && mate.key == keyRight
		if fits && mate.steel.Height > c.steelOf(p).NewHeight-mateReach { // almost new
			c.stock.giveOut(mate)
			if mate.side == inventory.Left {
				return mate, c.fresh(keyRight)
			}
			return c.fresh(keyLeft), mate
		}
	}
	return c.fresh(keyLeft), c.fresh(keyRight)
}

// worthSetting is how far above a change height used steel has to be to be matched
// into a set again.
const worthSetting geometry.Millimetre = 1.5

func (c *club) goTogether(p *player, l, r *runner) bool {
	return l.side == inventory.Left && r.side == inventory.Right &&
		gap(l.steel.Height, r.steel.Height) <= mateReach && min(l.steel.Height, r.steel.Height) > p.low+worthSetting
}

func (s *stockroom) giveOut(runners ...*runner) {
	s.loose = slices.DeleteFunc(s.loose, func(r *runner) bool { return slices.Contains(runners, r) })
}

// lay puts used runners aside for another set.
func (s *stockroom) lay(runners ...*runner) { s.loose = append(s.loose, runners...) }

// system is steel and the holder it is made for. Makers, names and fit keys are invented.
type system struct {
	runner, holder     string
	maker              string
	family, attachment string
	goalkeeper         bool
	thickness, height  geometry.Millimetre
}

// systems are skua, petrel and auk, the goalkeepers'.
func systems() (skua, petrel, auk *system) {
	skua = &system{"Skua R", "Skua H", "Lantern Rock Forge", "skua", "bolt", false, 2.9, 21}
	petrel = &system{"Petrel R", "Petrel H", "Nordskerry Steel", "petrel", "lever", false, 3.0, 21}
	auk = &system{"Auk G", "Auk H", "Nordskerry Steel", "auk", "bolt", true, 4.0, keepersSteel}
	return skua, petrel, auk
}

// trialModel is steel on trial that nobody has declared.
const trialModel = "Fulmar R"

// declare says what the club's models are and what they fit.
func (c *club) declare() {
	for _, s := range []*system{c.skua, c.petrel, c.auk} {
		runner := deeds.DeclareModel{
			Name: s.runner, Piece: "runner", Maker: s.maker, Family: s.family, Attachment: s.attachment,
			Goalkeeper: s.goalkeeper, Thickness: s.thickness, Height: new(s.height),
		}
		holder := runner
		holder.Name, holder.Piece, holder.Thickness, holder.Height = s.holder, "holder", 0, nil
		c.enter(runner)
		c.enter(holder)
	}
}

// sizes are the lengths in mm, as marked, that skates come in.
func sizes() []int { return []int{254, 263, 272, 280, 288, 296} }
