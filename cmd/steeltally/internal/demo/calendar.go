package demo

import (
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// calendar says when the club's seasons are.
type calendar struct {
	zone *time.Location
	camp time.Month // in which the camp begins
}

// A season's shape, common practice, no source: camp in late August, the league from
// mid-September until early May.
const (
	campFrom   = 22 // the camp begins on the first Monday from this day of its month on
	campWeeks  = 3
	allWeeks   = 37
	halfAYear  = 6
	firstNorth = time.August
)

// calendarFor is the northern calendar, or the southern one, half a year later, where
// a day lies outside of the northern season or at its edges: a book always ends amid
// a season.
func calendarFor(end time.Time, zone *time.Location) calendar {
	c := calendar{zone, firstNorth}
	from := time.Date(end.Year(), time.April, 15, 0, 0, 0, 0, zone)
	until := time.Date(end.Year(), time.October, 15, 0, 0, 0, 0, zone)
	if !end.Before(from) && end.Before(until) {
		c.camp -= halfAYear
	}
	return c
}

// season is one season: the camp, then the league.
type season struct {
	camp   time.Time // first day, midnight
	league time.Time
	over   time.Time // the day after the last
}

// season is the one whose camp begins in a year.
func (c calendar) season(year int) season {
	camp := c.midnight(year, c.camp, campFrom)
	for camp.Weekday() != time.Monday {
		camp = camp.AddDate(0, 0, 1)
	}
	return season{camp, camp.AddDate(0, 0, 7*campWeeks), camp.AddDate(0, 0, 7*allWeeks)}
}

// current is the season that is on at a time, or the last one that was.
func (c calendar) current(at time.Time) season {
	s := c.season(at.In(c.zone).Year())
	if at.Before(s.camp) {
		return c.before(s)
	}
	return s
}

func (c calendar) before(s season) season { return c.season(s.camp.Year() - 1) }

func (c calendar) after(s season) season { return c.season(s.camp.Year() + 1) }

// back is the day on which so many seasons, counted without the summers, lie before a
// day.
func (c calendar) back(from time.Time, seasons float64) time.Time {
	s := c.current(from)
	gone := min(1, s.share(from))
	for seasons > gone {
		seasons -= gone
		s, gone = c.before(s), 1
	}
	days := int((gone - seasons) * 7 * allWeeks)
	return s.camp.AddDate(0, 0, days)
}

// share is how much of the season has gone at a time.
func (s season) share(at time.Time) float64 {
	return float64(at.Sub(s.camp)) / float64(s.over.Sub(s.camp))
}

func (c calendar) midnight(year int, month time.Month, day int) time.Time {
	return time.Date(year, month, day, 0, 0, 0, 0, c.zone)
}

// dayOf is the midnight before a time.
func (c calendar) dayOf(at time.Time) time.Time {
	local := at.In(c.zone)
	return c.midnight(local.Year(), local.Month(), local.Day())
}

// clock is a time of day: "07:30" of a midnight. A day with a change of clocks keeps
// its times.
func clock(midnight time.Time, hour, minute int) time.Time {
	return time.Date(midnight.Year(), midnight.Month(), midnight.Day(), hour, minute, 0, 0, midnight.Location())
}

// session is a game or a practice of the club.
type session struct {
	start    time.Time
	game     bool
	opponent string
	away     bool
	note     string
	entry    inventory.Event // in the record
}

const (
	holidayWeek  = 17 // of the season: nobody plays between the years
	weekdaySlots = 14 // weeks with a Wednesday game beside the one at the weekend
	fridaySlots  = 13 // weeks with a Friday game beside Saturday's
)

// plan draws a season's sessions: about sixty games, and practices on most other days.
func (c *club) plan(s season) (sessions []*session) {
	var weeks []int // of the league
	for week := campWeeks; week < allWeeks; week++ {
		if week != holidayWeek {
			weeks = append(weeks, week)
		}
	}
	extra := shuffled(c.chance, weeks)
	wednesdays, fridays := extra[:weekdaySlots], extra[weekdaySlots:weekdaySlots+fridaySlots]
	onRoad := shuffled(c.chance, weeks)[:len(weeks)/2]
	for i := range 7 * allWeeks {
		week, date := i/7, s.camp.AddDate(0, 0, i)
		away := slices.Contains(onRoad, week)
		switch day := date.Weekday(); {
		case week == holidayWeek || day == time.Sunday:
		case week < campWeeks:
			sessions = append(sessions, practiceOn(date, "camp"))
		case day == time.Wednesday && slices.Contains(wednesdays, week):
			sessions = append(sessions, c.gameDay(date, 19, c.chance.happens(.5))...)
		case day == time.Friday && slices.Contains(fridays, week):
			sessions = append(sessions, c.gameDay(date, 19, away)...)
		case day == time.Saturday:
			sessions = append(sessions, c.gameDay(date, 17, away)...)
		default:
			sessions = append(sessions, practiceOn(date, ""))
		}
	}
	return sessions
}

func practiceOn(date time.Time, note string) *session {
	return &session{start: clock(date, 10, 0), note: note}
}

// gameDay is a game, at home with the skate in the morning.
func (c *club) gameDay(date time.Time, hour int, away bool) []*session {
	game := &session{start: clock(date, hour, 0), game: true, away: away, opponent: oneOf(c.chance, towns()...)}
	if away {
		return []*session{game}
	}
	return []*session{{start: clock(date, 10, 30), note: morningSkate}, game}
}

const morningSkate = "morning skate"

// post enters the sessions of a season that are still to come, and its trips.
func (c *club) post(s season) {
	for _, session := range c.plan(s) {
		if session.start.After(c.now()) {
			c.enterSession(session)
			c.sessions = append(c.sessions, session)
		}
	}
	c.planTrips()
}

func (c *club) enterSession(s *session) {
	events := c.enter(deeds.AddSession{
		Start: inventory.At(s.start), Game: s.game, Opponent: s.opponent, Away: s.away, Note: s.note,
	})
	if len(events) > 0 {
		s.entry = events[0]
	}
}

// sessionsOn lists a day's sessions.
func (c *club) sessionsOn(midnight time.Time) []*session {
	var today []*session
	for _, s := range c.sessions {
		if c.calendar.dayOf(s.start).Equal(midnight) {
			today = append(today, s)
		}
	}
	slices.SortFunc(today, func(a, b *session) int { return a.start.Compare(b.start) })
	return today
}

// forgetPast keeps the list of sessions short.
func (c *club) forgetPast() {
	c.sessions = slices.DeleteFunc(c.sessions, func(s *session) bool { return s.start.Before(c.now()) })
}

// postpone moves a home game that is some days away to the Sunday after it: it is taken
// back and entered anew.
func (c *club) postpone() {
	for _, s := range c.sessions {
		sunday := c.calendar.dayOf(s.start).AddDate(0, 0, 1)
		if !s.game || s.away || s.start.Before(c.now().AddDate(0, 0, 3)) || sunday.Weekday() != time.Sunday {
			continue
		}
		c.enter(deeds.Undo{Events: []inventory.Event{s.entry}, Words: "moved to Sunday"})
		s.start = clock(sunday, 16, 0)
		c.enterSession(s)
		return
	}
}

// agenda is what is going to happen, earliest first; of what happens together, the
// first planned comes first.
type agenda []task

type task struct {
	at  time.Time
	run func()
}

// add plans something.
func (a *agenda) add(at time.Time, run func()) {
	behind, _ := slices.BinarySearchFunc(*a, at, func(t task, at time.Time) int {
		if t.at.After(at) {
			return 1
		}
		return -1
	})
	*a = slices.Insert(*a, behind, task{at, run})
}

// next takes the earliest task that begins before a time.
func (a *agenda) next(before time.Time) (task, bool) {
	if len(*a) == 0 || !(*a)[0].at.Before(before) {
		return task{}, false
	}
	first := (*a)[0]
	*a = (*a)[1:]
	return first, true
}
