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
	lot, order := c.nextDelivery(key.system)
	lot = "H" + lot
	if weak {
		lot += "-2"
		c.stock.weakLot = lot
	}
	events := c.enter(deeds.StockIn{
		Piece: inventory.KindHolder, Model: key.system.holder, Size: key.size, Side: key.side, Count: count,
		Lot: lot, Order: order, Place: &inventory.Place{Name: "holder drawer", Slot: fmt.Sprint(key.size)},
	})
	for _, n := range bodyOf[inventory.StockedIn](events).Pieces {
		c.stock.holders[key] = append(c.stock.holders[key], n)
		c.stock.weak[n] = weak
	}
}

// holder takes one holder out of stock.
func (c *club) holder(key holderKey) inventory.Number {
	n, _ := take(c.stock.holders, key, func() { c.receiveHolders(key, holderOrder, false) })
	return n
}

// addPair gives a player boots in a role, with holders riveted on.
func (c *club) addPair(p *player, role inventory.Role) *pair {
	events := c.enter(deeds.AddPair{Player: p.number, Role: role})
	boots := &pair{number: bodyOf[inventory.PairNoted](events).Pair, owner: p, role: role, tried: c.now()}
	for _, side := range sides() {
		c.rivet(boots, side)
	}
	if role != "first" {
		c.rack(boots)
	}
	return boots
}

// rivet puts a holder from stock on a boot.
func (c *club) rivet(boots *pair, side inventory.Side) {
	n := c.holder(holderKey{stockKey{boots.owner.system, boots.owner.size(side)}, side})
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
	p.first = c.addPair(p, inventory.RoleFirst)
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
