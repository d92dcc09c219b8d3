package demo

import (
	"fmt"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// pair is one pair of boots with what hangs on it.
type pair struct {
	number  inventory.Number
	owner   *player
	role    inventory.Role
	holders inventory.Both[inventory.Number]
	on      *set
	tried   time.Time // a spare pair's last try
	skated  bool      // since its steel was last ground
	broken  bool      // its player is on his spare pair until it is mended
}

const (
	holderOrder = 6
	homeShelf   = "boot rack"
)

// receiveHolders takes a delivery of holders in.
func (c *club) receiveHolders(key holderKey, count int, weak bool) {
	deed := deeds.StockIn{Piece: inventory.KindHolder, Model: key.system.holder, Side: key.side, Count: count, Lot: "H%s"}
	if weak {
		deed.Lot = "H%s-2"
	}
	for _, n := range bodyOf[inventory.StockedIn](c.take(key.stockKey, "holder drawer", deed)).Pieces {
		c.stock.holders[key] = append(c.stock.holders[key], n)
		c.stock.weak[n] = weak
	}
}

// addPair gives a player a first or a spare pair, with holders riveted on.
func (c *club) addPair(p *player, role inventory.Role) *pair {
	events := c.enter(deeds.AddPair{Player: p.number, Role: role})
	boots := &pair{number: bodyOf[inventory.PairNoted](events).Pair, owner: p, role: role, tried: c.now()}
	for _, side := range sides() {
		c.rivet(boots, side)
	}
	if role == inventory.RoleFirst {
		p.first = boots
	} else {
		p.spare = boots
		c.rack(boots)
	}
	return boots
}

// rivet puts a holder from stock on a boot.
func (c *club) rivet(boots *pair, side inventory.Side) {
	key := holderKey{stockKey{boots.owner.system, boots.owner.size(side)}, side}
	n, _ := takeOut(c.stock.holders, key, func() { c.receiveHolders(key, holderOrder, false) })
	c.enter(deeds.RivetOn{Holder: n, Pair: boots.number})
	boots.holders.Put(side, &n)
}

// rack puts a pair in its place at home.
func (c *club) rack(boots *pair) {
	c.enter(deeds.PutAt{
		Pieces: numbers{boots.number}, Place: inventory.Place{Name: homeShelf, Slot: boots.owner.slot()},
	})
}

// slot is a player's place on a shelf or in a trunk.
func (p *player) slot() string { return fmt.Sprint(p.sweater) }

// newBoots gives a player new first boots for the season; the ones that he has move
// down a role each, and the last are kept.
func (c *club) newBoots(p *player) {
	c.bare(p.first)
	c.bare(p.spare)
	for _, move := range []struct {
		boots *pair
		role  inventory.Role
	}{{p.third, inventory.RoleKept}, {p.spare, inventory.RoleThird}, {p.first, inventory.RoleSpare}} {
		if move.boots != nil {
			c.enter(deeds.Inspect{Piece: move.boots.number, Sound: true, Note: "before the season"})
			c.enter(deeds.GiveRole{Pair: move.boots.number, Role: move.role})
			move.boots.role = move.role
		}
	}
	p.third, p.spare = p.spare, p.first
	c.addPair(p, inventory.RoleFirst)
	c.rack(p.spare)
}

// bare takes the steel off a pair and puts it on the player's shelf.
func (c *club) bare(boots *pair) {
	if boots == nil || boots.on == nil {
		return
	}
	p := boots.owner
	c.settle(p)
	c.enter(deeds.TakeOut{Player: p.number, Pair: boots.number, Reason: inventory.ReasonRotate, Place: steelShelf(p)})
	p.shelf = append(p.shelf, boots.on)
	boots.on = nil
}

// crackHolder is a cracked holder on a first pair. In a game the player finishes on his
// spare pair; then the holder is replaced.
func (c *club) crackHolder(p *player, found string) {
	c.settle(p)
	side := c.weakerSide(p.first)
	holder := p.first.holders.Of(side)
	if holder == nil {
		return
	}
	damage := c.damageOf(*holder, "crack", found)
	damage.Zone = oneOf[inventory.Zone](c.chance, "rear-tower", "rear-tower", "rear-tower", "front-tower", "bridge")
	if found == "game" && p.spare != nil && p.spare.on != nil && p.neglect != looseBolt {
		c.finishOnSpare(p, side, damage)
		return
	}
	c.enter(damage)
	c.pass(3 * time.Minute)
	c.replaceHolder(p.first, side)
}

// weakerSide is the side of a holder of the weak lot, or either.
func (c *club) weakerSide(boots *pair) inventory.Side {
	for _, side := range shuffled(c.chance, []inventory.Side{inventory.Left, inventory.Right}) {
		if n := boots.holders.Of(side); n != nil && c.stock.weak[*n] {
			return side
		}
	}
	return oneOf(c.chance, inventory.Left, inventory.Right)
}

// replaceHolder takes a holder off its boot and rivets another one on: with the runner
// still in it, or after the steel was taken out. Then the same steel goes back in.
func (c *club) replaceHolder(boots *pair, side inventory.Side) {
	p, s := boots.owner, boots.on
	old := *boots.holders.Of(side)
	if c.chance.happens(.5) {
		c.enter(deeds.RivetOff{Holder: old})
		c.pass(2 * time.Minute)
		c.enter(deeds.TakeRunnerOut{Runner: s.of(side).number, Reason: inventory.ReasonRotate})
	} else {
		c.enter(deeds.TakeOut{Player: p.number, Pair: boots.number, Reason: inventory.ReasonRotate})
		c.pass(time.Minute)
		c.enter(deeds.RivetOff{Holder: old})
	}
	c.claim(old, p.system)
	c.pass(6 * time.Minute)
	c.rivet(boots, side)
	c.fit(boots, s)
	c.enter(deeds.Inspect{Piece: boots.number, Sound: true, Note: "after riveting"})
}

// How a maker answers, invented.
const (
	claimShare   = .6 // of the cracked holders that are sent to the maker
	claimPatient = 30 // days in which he promises to answer
	claimSlowest = 40 // days that it really takes
)

// claim sends a cracked holder to its maker, or keeps it to be thrown away.
func (c *club) claim(holder inventory.Number, s *system) {
	if !c.stock.weak[holder] && !c.chance.happens(claimShare) {
		c.broken = append(c.broken, holder)
		return
	}
	c.claims++
	reference := fmt.Sprintf("C-%d", c.claims)
	c.later(c.chance.within(12*time.Hour, 72*time.Hour), func() {
		c.enter(deeds.HandOver{
			Pieces: numbers{holder}, Custody: inventory.CustodyMaker, With: s.maker, Reference: reference,
			Due: inventory.At(c.now().AddDate(0, 0, claimPatient)),
		})
		c.later(c.chance.within(8*24*time.Hour, claimSlowest*24*time.Hour), func() { c.answer(holder) })
	})
}

// answer is the maker's word: mostly another holder, which comes with the next delivery.
func (c *club) answer(holder inventory.Number) {
	decision := oneOf(c.chance, inventory.DecisionReplace, inventory.DecisionReplace, inventory.DecisionCredit, inventory.DecisionRefuse)
	if c.stock.weak[holder] {
		decision = inventory.DecisionReplace
	}
	c.enter(deeds.NoteAnswer{Pieces: numbers{holder}, Decision: decision})
	c.later(c.chance.within(24*time.Hour, 10*24*time.Hour), func() {
		if decision != inventory.DecisionRefuse {
			c.enter(deeds.NoteAnswer{Pieces: numbers{holder}, Decision: inventory.DecisionSettled})
			return
		}
		c.enter(deeds.TakeBack{Pieces: numbers{holder}, NotGround: true})
		c.broken = append(c.broken, holder)
	})
}

// scrapBroken throws away what broke in the season.
func (c *club) scrapBroken() {
	for len(c.broken) > 0 {
		n := min(len(c.broken), 20)
		c.enter(deeds.Scrap{Pieces: c.broken[:n], Reason: "broken"})
		c.broken = c.broken[n:]
	}
}
