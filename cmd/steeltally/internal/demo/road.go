package demo

import (
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// trip is one or more away games on days in a row.
type trip struct {
	name     string
	from, to time.Time // first and last day, midnights
}

const pairsInTrunk = 7

// trunkNames are what the club's trunks are called.
func trunkNames() []string { return []string{"trunk 1", "trunk 2", "trunk 3", "trunk 4"} }

// kits are what travels besides steel, and how many at least.
func kits() []inventory.KitNoted {
	return []inventory.KitNoted{
		{Kit: "rivets 8 mm", Least: 60}, {Kit: "bolts", Least: 24}, {Kit: "wheel 1/2 in", Least: 2},
		{Kit: "eye protection", Least: 2}, {Kit: "power lead", Least: 2},
	}
}

// planTrips enters the trips of the sessions to come.
func (c *club) planTrips() {
	c.trips = nil
	for _, s := range c.sessions {
		if !s.away {
			continue
		}
		day := c.calendar.dayOf(s.start)
		if n := len(c.trips); n > 0 && c.trips[n-1].to.AddDate(0, 0, 1).Equal(day) {
			c.trips[n-1].to = day
			continue
		}
		c.trips = append(c.trips, &trip{name: s.opponent + day.Format(" 2 Jan 2006"), from: day, to: day})
	}
	for _, t := range c.trips {
		c.enter(deeds.AddTrip{Name: t.name, From: wholeDay(t.from), To: wholeDay(t.to)})
	}
}

func wholeDay(midnight time.Time) inventory.When {
	return inventory.Between(midnight, midnight.AddDate(0, 0, 1))
}

// tripOn is the trip that a day belongs to, or nil.
func (c *club) tripOn(midnight time.Time) *trip {
	for _, t := range c.trips {
		if !midnight.Before(t.from) && !midnight.After(t.to) {
			return t
		}
	}
	return nil
}

// pack puts every spare pair that can skate into a trunk, with a ready set; who is hurt
// stays at home.
func (c *club) pack(t *trip) {
	c.hosts = c.chance.happens(hostsGrind)
	lots := make([]deeds.PackLot, len(c.trunks))
	packed := 0
	var hurt numbers
	for _, p := range c.atHome() {
		switch {
		case !p.here(c.now()):
			hurt = append(hurt, p.number)
		case p.spare != nil && p.spare.on != nil:
			lot := &lots[packed/pairsInTrunk%len(lots)]
			lot.Pieces = append(lot.Pieces, p.spare.number)
			if len(p.shelf) > 0 {
				lot.Pieces = append(lot.Pieces, p.shelf[0].number)
			}
			packed++
		}
	}
	if len(hurt) > 0 {
		c.enter(deeds.ChangeRoster{Trip: t.name, Players: hurt, Stay: true})
	}
	for _, kit := range kits() {
		lots[0].Kits = append(lots[0].Kits, inventory.KitCount{Kit: kit.Kit, Count: kit.Least + c.chance.between(0, 4)})
	}
	for i := range lots {
		if len(lots[i].Pieces)+len(lots[i].Kits) == 0 {
			continue
		}
		lots[i].Trunk = c.trunks[i]
		c.enter(deeds.Pack{Trip: t.name, Lots: lots[i : i+1]})
		c.pass(3 * time.Minute)
	}
	c.enter(deeds.CountTrunks{Trip: t.name, Trunks: c.trunks})
}

// unpack counts the trunks and puts everything back in its place.
func (c *club) unpack(t *trip) {
	c.enter(deeds.CountTrunks{Trip: t.name, Back: true, Trunks: c.trunks})
	var sets numbers
	for _, p := range c.atHome() {
		if p.spare != nil && p.spare.on != nil {
			c.pass(20 * time.Second)
			c.rack(p.spare)
		}
		for _, s := range p.shelf {
			sets = append(sets, s.number)
		}
	}
	for lot := range slices.Chunk(sets, 30) {
		c.enter(deeds.PutAt{Pieces: lot, Place: inventory.Place{Name: "steel shelf"}})
	}
}
