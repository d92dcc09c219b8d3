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

func cabinet(size int) *inventory.Place {
	return &inventory.Place{Name: "steel cabinet", Slot: fmt.Sprint(size)}
}

// receive takes a delivery of new runners in.
func (c *club) receive(key stockKey, count int) {
	lot, order := c.nextDelivery(key.system)
	events := c.enter(deeds.StockIn{
		Piece: inventory.KindRunner, Model: key.system.runner, Size: key.size, Count: count, Lot: lot, Order: order,
		Place: cabinet(key.size),
	})
	for _, n := range bodyOf[inventory.StockedIn](events).Pieces {
		r := &runner{number: n, key: key, nominal: key.system.height}
		c.runners[n] = r
		c.stock.fresh[key] = append(c.stock.fresh[key], r)
	}
	c.stock.ordered[key] = false
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
	if len(c.stock.fresh[key]) == 0 {
		c.receive(key, expressOf)
	}
	if len(c.stock.fresh[key]) == 0 {
		return &runner{key: key} // nothing was recorded: the run is over
	}
	r := c.stock.fresh[key][0]
	c.stock.fresh[key] = c.stock.fresh[key][1:]
	if len(c.stock.fresh[key]) < leastFresh && !c.stock.ordered[key] {
		c.stock.ordered[key] = true
		c.later(time.Duration(c.chance.between(4, 8))*24*time.Hour, func() { c.deliver(key) })
	}
	return r
}

// deliver is a delivery; one that is counted wrongly at first is taken back.
func (c *club) deliver(key stockKey) {
	if c.chance.happens(wrongCounts) {
		c.miscount(key)
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
		almostNew := mate.steel.Height > c.steelOf(p).NewHeight-mateReach
		switch {
		case !almostNew:
		case mate.side == inventory.Left && mate.key == keyLeft:
			c.stock.giveOut(mate)
			return mate, c.fresh(keyRight)
		case mate.side == inventory.Right && mate.key == keyRight:
			c.stock.giveOut(mate)
			return c.fresh(keyLeft), mate
		}
	}
	return c.fresh(keyLeft), c.fresh(keyRight)
}

// worthSetting is how far above a change height used steel has to be to be matched
// into a set again.
const worthSetting geometry.Millimetre = 1.5

func (c *club) goTogether(p *player, l, r *runner) bool {
	differ := l.steel.Height - r.steel.Height
	return l.side == inventory.Left && r.side == inventory.Right &&
		differ <= mateReach && differ >= -mateReach && min(l.steel.Height, r.steel.Height) > p.low+worthSetting
}

func (s *stockroom) giveOut(runners ...*runner) {
	s.loose = slices.DeleteFunc(s.loose, func(r *runner) bool { return slices.Contains(runners, r) })
}

// lay puts used runners aside for another set.
func (s *stockroom) lay(runners ...*runner) { s.loose = append(s.loose, runners...) }
