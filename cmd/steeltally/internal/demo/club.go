package demo

import (
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/wear/truth"
)

// club is the invented club as it truly is.
type club struct {
	*scribe
	chance            chance
	agenda            agenda
	calendar          calendar
	opening, end      time.Time
	skaters, keepers  truth.Club
	skua, petrel, auk *system
	namer             *namer
	stock             *stockroom
	appetites         []float64 // to be dealt
	players           []*player // who are here or hurt
	farm              []*player // who were called up and sent back
	everybody         []*player
	sessions          []*session // to come
	trips             []*trip    // of this season
	trunks            numbers
	hosts             bool    // of this trip grind for us
	bin               string  // this month's, for removed runners
	broken            numbers // to be thrown away in summer
	claims            int     // sent to makers so far
	announce          func()  // how far the book is
}

// later plans something for a while from now.
func (c *club) later(after time.Duration, run func()) { c.agenda.add(c.now().Add(after), run) }

// here lists the players who skate now.
func (c *club) here() []*player {
	var here []*player
	for _, p := range c.players {
		if p.onFirst(c.now()) {
			here = append(here, p)
		}
	}
	return here
}

// day plans one day, and the next.
func (c *club) day(midnight time.Time) {
	c.announce()
	c.writer = oneOf(c.chance, staff()...)
	c.agenda.add(clock(midnight.AddDate(0, 0, 1), 0, 5), func() { c.day(midnight.AddDate(0, 0, 1)) })
	season := c.calendar.current(midnight)
	switch next := c.calendar.after(season); {
	case midnight.Equal(next.camp.AddDate(0, 0, -campPrepares)):
		c.prepareCamp(next)
	case midnight.Equal(season.league):
		c.endCamp()
	case midnight.Equal(season.over.AddDate(0, 0, 20)):
		c.summer()
	}
	c.shuffleNeglects(midnight)
	if today := c.sessionsOn(midnight); len(today) > 0 {
		c.sessionDay(midnight, season, today)
	}
	c.forgetPast()
}

// sessionDay plans a day on the ice and what the staff do beside it.
func (c *club) sessionDay(midnight time.Time, season season, today []*session) {
	c.mornings(midnight)
	for _, s := range today {
		switch {
		case !s.game:
			c.agenda.add(s.start.Add(-benchOpens-5*time.Minute), func() { c.beforePractice(s) })
		case s.away:
			c.holdAway(s)
		default:
			c.holdGame(s, homeWheel)
		}
	}
	c.afternoons(midnight, today)
	c.strangeDays(midnight, season)
	if c.isLast(midnight) {
		c.agenda.add(today[len(today)-1].start.Add(4*time.Hour), c.leaveOpen)
	}
}

// isLast tells whether a day is the last one on the ice before the end.
func (c *club) isLast(midnight time.Time) bool {
	tomorrow := midnight.AddDate(0, 0, 1)
	return !slices.ContainsFunc(c.sessions, func(s *session) bool {
		return !s.start.Before(tomorrow) && s.start.Before(c.end)
	})
}

// leaveOpen is a grind scanned twice on the last evening: the book ends with something
// that waits for a person.
func (c *club) leaveOpen() {
	if p := c.anybody((*player).inOrder); p != nil {
		c.takeOff(p.first.on, p.passes, p.passes)
		c.sharpened(p.first)
		c.logTwice(p, deeds.Grind{Player: p.number, Machine: homeWheel}, c.end)
	}
}

// anybody is one of those who skate now of whom something is so; nil for none.
func (c *club) anybody(is func(*player) bool) *player {
	for _, p := range shuffled(c.chance, c.here()) {
		if is(p) {
			return p
		}
	}
	return nil
}

// inOrder tells whether the record has nothing otherwise of a player than it is.
func (p *player) inOrder() bool { return p.story == nil }

// numbers are those of pieces or players.
type numbers = []inventory.Number
