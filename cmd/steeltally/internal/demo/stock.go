package demo

import (
	"fmt"
	"slices"
	"strings"
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
	weak     map[inventory.Number]bool // holders of the lot that cracks
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
	return c.take(key, "steel cabinet", deeds.StockIn{Piece: inventory.KindRunner, Model: key.system.runner, Count: count, Lot: "%s"})
}

// take takes a delivery in: its lot, of which several deliveries can be, is named after
// the quarter, and its order is new.
func (c *club) take(key stockKey, drawer string, deed deeds.StockIn) []inventory.Event {
	c.stock.delivery++
	quarter := (int(c.now().Month()) + 2) / 3
	deed.Lot = fmt.Sprintf(deed.Lot, fmt.Sprintf("%c%s-%d", key.system.runner[0], c.now().Format("06"), quarter))
	deed.Order = fmt.Sprintf("PO-%d", 4100+c.stock.delivery)
	deed.Size, deed.Place = key.size, &inventory.Place{Name: drawer, Slot: fmt.Sprint(key.size)}
	return c.enter(deed)
}

// fresh takes one new runner out of stock and orders more in time.
func (c *club) fresh(key stockKey) *runner {
	r, ok := takeOut(c.stock.fresh, key, func() { c.receive(key, expressOf) })
	if !ok {
		return &runner{key: key} // nothing was recorded: the run is over
	}
	if len(c.stock.fresh[key]) < leastFresh && !c.stock.ordered[key] {
		c.stock.ordered[key] = true
		c.later(time.Duration(c.chance.between(4, 8))*24*time.Hour, func() { c.deliver(key) })
	}
	return r
}

// takeOut takes the first piece of a sort, after a delivery where there is none.
func takeOut[K comparable, V any](store map[K][]V, key K, deliver func()) (piece V, ok bool) {
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

// What each player needs from the stock of the first day, generously.
const (
	runnersEach = 3 // of a side
	holdersEach = 3 // of a side
)

// begin enters what the club has on the day on which the book begins: its models, its
// stock, its players with steel half worn.
func (c *club) begin() {
	c.declare()
	c.beginTravel()
	var players []*player
	for position, count := range lineup() {
		for range count {
			p := c.newPlayer(positionName(position))
			players = append(players, p)
			c.players = append(c.players, p) // so that nobody else gets the sweater
		}
	}
	c.players = nil
	c.firstStock(players)
	for _, p := range players {
		c.beginWith(p)
	}
	c.emptyBucket()
	c.post(c.calendar.current(c.now()))
}

// beginTravel enters trunks, what travels in them, and how many ready sets a player has.
func (c *club) beginTravel() {
	for _, name := range trunkNames() {
		events := c.enter(deeds.NoteContainer{Container: inventory.KindTrunk, Name: name})
		c.trunks = append(c.trunks, bodyOf[inventory.ContainerNoted](events).Container)
	}
	for _, kit := range kits() {
		c.enter(deeds.NoteKit(kit))
	}
	c.enter(deeds.SetRules{SpareRules: inventory.SpareRules{Sets: new(1)}})
}

// firstStock takes in what there is of each size that somebody wears.
func (c *club) firstStock(players []*player) {
	for _, s := range []*system{c.skua, c.petrel, c.auk} {
		for _, size := range sizes() {
			key := stockKey{s, size}
			left, right := 0, 0
			for _, p := range players {
				if p.system == s && p.left == size {
					left++
				}
				if p.system == s && p.right == size {
					right++
				}
			}
			if left+right > 0 {
				c.receive(key, runnersEach*(left+right))
				c.firstHolders(holderKey{key, inventory.Left}, left)
				c.firstHolders(holderKey{key, inventory.Right}, right)
			}
		}
	}
}

// firstHolders takes holders in, in two lots; the second lot of one family is weak.
func (c *club) firstHolders(key holderKey, players int) {
	if players == 0 {
		return
	}
	c.receiveHolders(key, holdersEach*players-players, false)
	c.receiveHolders(key, players, key.system == c.petrel)
}

// beginWith enters one player with boots and steel that were there before the book.
func (c *club) beginWith(p *player) {
	c.sign(p)
	for _, boots := range []*pair{c.addPair(p, inventory.RoleFirst), c.addPair(p, inventory.RoleSpare)} {
		c.fit(boots, c.wornSet(p))
		c.pass(3 * time.Minute)
	}
	c.stockUp(p)
	c.enter(deeds.Inspect{Piece: p.spare.number, Sound: true})
	p.spare.tried = c.now().AddDate(0, 0, -c.chance.IntN(tryDays))
}

// oldPieces are runners from before the book with nothing but marker strokes on them.
const oldPieces = 10

// emptyBucket enters the old pieces: what is written on them as it stands, and the time
// as vague as it is.
func (c *club) emptyBucket() {
	c.enter(deeds.NoteContainer{Container: inventory.KindBin, Name: oldBucket})
	last := c.calendar.before(c.calendar.current(c.opening))
	for range oldPieces {
		side := oneOf(c.chance, inventory.Left, inventory.Right)
		old := deeds.FindOld{Sweater: c.chance.between(2, 29), Side: side, Place: &inventory.Place{Name: oldBucket}}
		old.Inscription = fmt.Sprintf("%d %c", old.Sweater, strings.ToUpper(string(side))[0])
		when := inventory.When{}
		if c.chance.happens(.6) {
			month := last.camp.AddDate(0, c.chance.between(1, 7), 1-last.camp.Day())
			when = inventory.Between(month, month.AddDate(0, 1, 0))
			old.Inscription += month.Format(" Jan")
		}
		c.enterAt(when, old)
	}
}

const oldBucket = "old bucket"

// wornSet is a set that was in use before the book began: stocked in at the height that
// it has now, matched and ground some time in the season, its passes until now unknown.
func (c *club) wornSet(p *player) *set {
	season := inventory.Between(c.calendar.current(c.opening).camp, c.opening)
	low := p.low + .4
	depth := c.chance.Float64() * float64(c.steelOf(p).NewHeight-.5-low)
	left := c.wornRunner(p, inventory.Left, season, low+geometry.Millimetre(depth))
	right := c.wornRunner(p, inventory.Right, season, low+geometry.Millimetre(depth))
	s := c.matchAt(season, p, left, right)
	c.enterAt(season, deeds.Grind{Set: s.number, Unknown: true, By: "before the book"})
	s.ground, s.hollow = true, p.hollow
	c.measureSet(s)
	return s
}

// wornRunner stocks in one used runner of about a height.
func (c *club) wornRunner(p *player, side inventory.Side, since inventory.When, about geometry.Millimetre) *runner {
	steel := c.steelOf(p).NewPair(c.chance.Rand, p.wear).Left
	steel.Height = about + geometry.Millimetre(.1*c.chance.NormFloat64())
	steel.Passes = int(float64(steel.New-steel.Height) / steel.LossPerPass)
	shown := c.steelOf(p).Caliper.Measure(c.chance.Rand, steel.Height)
	key := stockKey{p.system, p.size(side)}
	events := c.enterAt(since, deeds.StockIn{
		Piece: inventory.KindRunner, Model: key.system.runner, Size: key.size, Side: side, Count: 1,
		Height: &shown, Place: steelShelf(p),
	})
	worn := c.enrol(events, key, shown)
	if len(worn) == 0 {
		return &runner{key: key}
	}
	r := worn[0]
	r.side, r.used, r.steel, r.unlogged, r.player = side, true, steel, steel.Passes, p.number
	return r
}

// atHome are the players who belong to the club, without those who are up from the
// farm or came to the camp.
func (c *club) atHome() []*player {
	return slices.DeleteFunc(slices.Clone(c.players), func(p *player) bool { return p.callUp })
}
