package demo

import (
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
