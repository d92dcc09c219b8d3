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

const (
	practiceLength = 90 * time.Minute
	benchOpens     = 85 * time.Minute // before a practice
)

// beforePractice plans the grinds before and during a practice, who skates it on his spare
// pair, and what goes wrong.
func (c *club) beforePractice(s *session) {
	share := 1.0
	if s.note == morningSkate {
		share = skateShare
	}
	together := c.chance.happens(togetherShare)
	var first []*player
	for i, p := range shuffled(c.chance, c.here()) {
		c.risk(p, s.start, practiceLength, "practice")
		if s.note != morningSkate && c.chance.happens(.3) {
			c.agenda.add(s.start, func() { c.trySpare(p) })
		}
		visits := c.chance.about(p.practice * share)
		if visits == 0 {
			continue
		}
		if together && i > 1 {
			first = append(first, p)
		} else {
			c.visitAt(p, s.start.Add(-benchOpens+time.Duration(i)*170*time.Second), homeWheel)
		}
		c.visitWithin(p, visits-1, s.start.Add(15*time.Minute), practiceLength-20*time.Minute, homeWheel)
	}
	if len(first) > 0 {
		c.agenda.add(s.start.Add(-10*time.Minute), func() { c.grindTogether(first) })
	}
}

func (c *club) visitAt(p *player, at time.Time, wheel string) {
	c.agenda.add(at, func() { c.visit(p, wheel) })
}

// visitWithin spreads a number of visits over a span.
func (c *club) visitWithin(p *player, visits int, from time.Time, span time.Duration, wheel string) {
	for range visits {
		c.visitAt(p, from.Add(c.chance.within(0, span)), wheel)
	}
}

// mornings are the changes before the first session, and the turns of those who have two
// sets in turn.
func (c *club) mornings(midnight time.Time) {
	for i, p := range c.here() {
		at := clock(midnight, 6, 40).Add(time.Duration(i) * 90 * time.Second)
		c.agenda.add(at, func() {
			switch {
			case !p.onFirst(c.now()):
			case p.due:
				c.changeDue(p)
			case p.lags() && c.chance.happens(unscannedShare):
				c.forgetChange(p)
			case p.lags():
				c.turn(p)
			}
		})
	}
}

// afternoons are the work after the sessions, where the staff is at home.
func (c *club) afternoons(midnight time.Time, today []*session) {
	if today[len(today)-1].away {
		return
	}
	c.agenda.add(clock(midnight, 12, 30), c.measureSome)
	for i, p := range c.here() {
		c.agenda.add(clock(midnight, 12, 45).Add(time.Duration(i)*4*time.Minute), func() { c.stockUp(p) })
	}
	c.agenda.add(clock(midnight, 12, 25), c.settleDoubts)
	c.agenda.add(clock(midnight, 16, 0), c.mendRoster)
	switch midnight.Weekday() {
	case time.Monday:
		c.agenda.add(clock(midnight, 13, 0), c.lookAtFirst)
	case time.Thursday:
		for _, p := range c.atHome() {
			c.agenda.add(clock(midnight, 13, 30), func() { c.keepSpare(p) })
		}
	}
}

// measureSome measures the two or three players who were not measured for longest, each
// on both of his pairs.
func (c *club) measureSome() {
	here := c.here()
	slices.SortStableFunc(here, func(a, b *player) int { return a.measured.Compare(b.measured) })
	for _, p := range here[:min(c.chance.between(2, 3), len(here))] {
		c.measureBoth(p)
	}
}

// lookAtFirst looks at the bolts and rivets of the first pairs that are due for it.
func (c *club) lookAtFirst() {
	for _, p := range c.here() {
		if c.now().Sub(p.looked) < (lookDays-1)*24*time.Hour {
			continue
		}
		p.looked = c.now()
		c.pass(time.Minute)
		c.enter(deeds.Inspect{Piece: p.first.number, Sound: true})
	}
}
