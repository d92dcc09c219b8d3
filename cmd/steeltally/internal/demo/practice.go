package demo

import (
	"slices"
	"time"

	"steeltally/inventory/deeds"
)

const (
	practiceLength = 90 * time.Minute
	benchOpens     = 85 * time.Minute // before a practice
)

// holdPractice plans a practice: the grinds before and during it, and what goes wrong.
func (c *club) holdPractice(s *session) {
	c.agenda.add(s.start.Add(-benchOpens-5*time.Minute), func() { c.beforePractice(s) })
}

func (c *club) beforePractice(s *session) {
	share := 1.0
	if s.note == morningSkate {
		share = skateShare
	}
	together := c.chance.happens(togetherShare)
	var first []*player
	for i, p := range shuffled(c.chance, c.here()) {
		c.risk(p, s.start, practiceLength, "practice")
		c.perhapsTry(p, s)
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

// perhapsTry lets a player skate a practice on his spare pair, at times.
func (c *club) perhapsTry(p *player, s *session) {
	if s.note != morningSkate && c.chance.happens(.3) {
		c.agenda.add(s.start, func() { c.trySpare(p) })
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
