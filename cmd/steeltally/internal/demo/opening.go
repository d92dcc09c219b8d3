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
	p.first, p.spare = c.addPair(p, "first"), c.addPair(p, "spare")
	for _, boots := range []*pair{p.first, p.spare} {
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
