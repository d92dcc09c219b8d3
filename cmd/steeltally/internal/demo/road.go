package demo

import (
	"fmt"
	"time"

	"steeltally/inventory"
)

const (
	trunks       = 4
	pairsInTrunk = 7
)

// trunkName is the name of a trunk, counted from 0.
func trunkName(trunk int) string { return fmt.Sprintf("trunk %d", trunk+1) }

// pack puts every spare pair that can skate into a trunk, with a ready set.
func (c *club) pack() {
	c.hosts = c.chance.happens(hostsGrind)
	c.packed = true
	packed := 0
	for _, p := range c.atHome() {
		if p.spare == nil || p.spare.on == nil {
			continue
		}
		trunk := packed / pairsInTrunk % trunks
		pieces := numbers{p.spare.number}
		if len(p.shelf) > 0 {
			pieces = append(pieces, p.shelf[0].number)
		}
		c.enter(inventory.PutAt{Pieces: pieces, Place: inventory.Place{
			Name: trunkName(trunk), Slot: fmt.Sprint(packed%pairsInTrunk + 1),
		}})
		c.pass(30 * time.Second)
		packed++
	}
}

// unpack brings everything back, trunk by trunk.
func (c *club) unpack() {
	var pairs, sets numbers
	for _, p := range c.atHome() {
		if p.spare != nil && p.spare.on != nil {
			pairs = append(pairs, p.spare.number)
		}
		for _, s := range p.shelf {
			sets = append(sets, s.number)
		}
	}
	for len(pairs) > 0 {
		n := min(pairsInTrunk, len(pairs))
		c.enter(inventory.PutAt{Pieces: pairs[:n], Place: inventory.Place{Name: homeShelf}})
		pairs = pairs[n:]
	}
	if len(sets) > 0 {
		c.enter(inventory.PutAt{Pieces: sets, Place: inventory.Place{Name: "steel shelf"}})
	}
	c.packed = false
}
