package demo

import (
	"cmp"
	"slices"
	"time"

	"steeltally/inventory/deeds"
)

const (
	gameLength = 150 * time.Minute
	beforeGame = 110 * time.Minute
	breakTime  = 14 * time.Minute
)

// breaks are the intermissions, after the start.
func breaks() []time.Duration { return []time.Duration{39 * time.Minute, 94 * time.Minute} }

// holdGame plans a game: the grinds before it and in the intermissions.
func (c *club) holdGame(s *session, wheel string) {
	c.agenda.add(s.start.Add(-beforeGame-10*time.Minute), func() { c.beforeTheGame(s, wheel) })
}

func (c *club) beforeTheGame(s *session, wheel string) {
	for i, p := range c.dress() {
		c.risk(p, s.start, gameLength, "game")
		if s.away && c.hosts && c.chance.happens(.6) {
			c.agenda.add(s.start.Add(-20*time.Minute), func() { c.hostsGrind(p) })
			continue
		}
		c.gameVisits(p, c.chance.about(p.game), s.start, time.Duration(i)*4*time.Minute, wheel)
	}
}

// gameVisits spreads visits: before the game, in the intermissions, and what is left
// before it again.
func (c *club) gameVisits(p *player, visits int, start time.Time, turn time.Duration, wheel string) {
	if visits == 0 {
		return
	}
	c.visitAt(p, start.Add(-beforeGame+turn), wheel)
	visits--
	for _, intermission := range breaks() {
		if visits > 0 {
			c.visitWithin(p, 1, start.Add(intermission), breakTime, wheel)
			visits--
		}
	}
	c.visitWithin(p, visits, start.Add(-beforeGame), beforeGame-15*time.Minute, wheel)
}

// dress picks who plays: the goalkeeper of the day and his substitute, and the skaters
// without the lowest ones of those who are fit.
func (c *club) dress() []*player {
	var keepers, skaters []*player
	form := map[*player]float64{}
	for _, p := range c.here() {
		if p.tryOut {
			continue
		}
		form[p] = p.rank + .25*c.chance.NormFloat64()
		if p.goalkeeper() {
			keepers = append(keepers, p)
		} else {
			skaters = append(skaters, p)
		}
	}
	best := func(a, b *player) int { return cmp.Compare(form[b], form[a]) }
	slices.SortFunc(keepers, best)
	slices.SortFunc(skaters, best)
	return append(keepers[:min(1, len(keepers))], skaters[:min(dressed, len(skaters))]...)
}

// holdAway is a game on the road: trunks are packed on the first day of the trip and
// unpacked on the day after the last.
func (c *club) holdAway(s *session) {
	day := c.calendar.dayOf(s.start)
	if t := c.tripOn(day); t != nil {
		if t.from.Equal(day) {
			c.agenda.add(clock(day, 8, 30), func() { c.pack(t) })
		}
		if t.to.Equal(day) {
			c.agenda.add(clock(day.AddDate(0, 0, 1), 12, 0), func() { c.unpack(t) })
		}
	}
	c.holdGame(s, roadWheel)
}

// hostsGrind is steel ground by the hosts: nobody counted the passes.
func (c *club) hostsGrind(p *player) {
	if !p.onFirst(c.now()) {
		return
	}
	c.settle(p)
	c.takeOffUnlogged(p.first.on, c.chance.between(4, 14))
	c.sharpened(p.first)
	p.lastVisit = c.now()
	c.enter(deeds.Grind{Player: p.number, Unknown: true, By: "the hosts' bench"})
}
