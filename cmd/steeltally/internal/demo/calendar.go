package demo

import "time"

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
