package outlook

import (
	"errors"
	"sort"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
	"steeltally/inventory/wear"
)

// foretellDates carries the passes left through the schedule, and says when to measure.
func (o *Outlook) foretellDates(d *Due, m *standing.Member) error {
	since := 0
	for _, side := range d.Sides {
		since = max(since, side.Since)
	}
	d.Measure = Measure{InPasses: wear.NextHeight(float64(since), d.Passes.Middle), Since: since}
	if !d.Basis.GivesDate() {
		d.CannotSay, d.ToDo = "nothing is known of this player's wear yet; this is the club's usual range", "measure after about 60 passes"
		return nil
	}
	days, err := o.days(m, d.Pair)
	switch {
	case errors.Is(err, wear.ErrNoSchedule):
		d.CannotSay, d.ToDo = "no date: no sessions are in the schedule", "steeltally game add"
		return nil
	case errors.Is(err, wear.ErrNoSessions):
		d.CannotSay, d.ToDo = "no date: too few sessions are logged to turn passes into days", "log each grind; steeltally game add"
		return nil
	case err != nil:
		return err
	}
	d.days = days
	o.tellDates(d)
	return nil
}

// days are the passes that the schedule will take of what is on a pair.
func (o *Outlook) days(m *standing.Member, pair inventory.Number) ([]wear.Day, error) {
	if len(o.calendar.sessions) == 0 {
		return nil, wear.ErrNoSchedule
	}
	costs, err := o.costs(m, pair)
	if err != nil {
		return nil, err
	}
	return wear.Schedule(o.calendar.sessions, costs)
}

func (o *Outlook) tellDates(d *Due) {
	low, middle, high := d.firstDay(lowChance), d.firstDay(middleChance), d.firstDay(highChance)
	d.Dates = &Range[time.Time]{o.calendar.within(low), o.calendar.within(middle), o.calendar.within(high)}
	d.Sessions = &Range[int]{o.calendar.sessionsUntil(low), o.calendar.sessionsUntil(middle), o.calendar.sessionsUntil(high)}
	if on, ok := o.calendar.firstDay(d.Measure.InPasses, d.days); ok {
		d.Measure.On = on
	}
}

// firstDay is the first day by whose end the chance of being due reaches a level; the
// chance rises from day to day.
func (d *Due) firstDay(chance float64) int {
	return sort.Search(len(d.days), func(day int) bool { return d.forecast.DueByDay(d.days[day]) >= chance })
}

// Planned is the due sets with the passes of the days to come set by hand: so many on
// each day from today.
func (o *Outlook) Planned(d Due, passes []float64) (Due, error) {
	days, err := wear.PlannedPasses(passes)
	if err != nil || d.Passes == nil {
		return d, err
	}
	planned := *o
	planned.calendar = calendar{today: o.calendar.today, sessions: make([][]int, len(passes))}
	for i := range planned.calendar.sessions {
		planned.calendar.sessions[i] = []int{practice: 1, game: 0}
	}
	d.days, d.Until = days, planned.calendar.last()
	d.CannotSay, d.ToDo = "", ""
	planned.tellDates(&d)
	return d, nil
}

// furthest is how far ahead the schedule is looked along.
const furthest = 250 * 24 * time.Hour

// calendar is the days to come with their sessions, today's rest the first.
type calendar struct {
	today    time.Time // midnight in the club's zone
	sessions [][]int   // by day and kind
}

// Schedule is the club's sessions before and after an instant.
type Schedule struct {
	at     time.Time
	held   []held
	coming calendar
}

// ReadSchedule reads what a look at an instant needs of the schedule.
func ReadSchedule(v inventory.View, at time.Time) Schedule {
	return Schedule{at, heldSessions(v, at), calendarOf(v, at)}
}

// calendarOf reads the schedule from an instant until its last session.
func calendarOf(v inventory.View, at time.Time) calendar {
	local := at.In(inventory.ClubOf(v).Location())
	c := calendar{today: midnight(local)}
	for _, s := range inventory.Sessions(v, at, at.Add(furthest)) {
		day := c.dayOf(s.When.Start)
		for len(c.sessions) <= day {
			c.sessions = append(c.sessions, make([]int, sessionKinds))
		}
		kind := practice
		if s.Value.Game {
			kind = game
		}
		c.sessions[day][kind]++
	}
	return c
}

func midnight(local time.Time) time.Time {
	return time.Date(local.Year(), local.Month(), local.Day(), 0, 0, 0, 0, local.Location())
}

// dayOf numbers the day of an instant from today, 0.
func (c calendar) dayOf(at time.Time) int {
	days := midnight(at.In(c.today.Location())).Sub(c.today)
	return int((days + 12*time.Hour) / (24 * time.Hour)) // days are 23 to 25 hours long
}

// date is the day of a number.
func (c calendar) date(day int) time.Time { return c.today.AddDate(0, 0, day) }

// within is the day of a number; zero beyond the schedule.
func (c calendar) within(day int) time.Time {
	if day >= len(c.sessions) {
		return time.Time{}
	}
	return c.date(day)
}

// last is the last day of the schedule; zero without one.
func (c calendar) last() time.Time {
	if len(c.sessions) == 0 {
		return time.Time{}
	}
	return c.date(len(c.sessions) - 1)
}

// sessionsUntil counts the sessions until the end of a day.
func (c calendar) sessionsUntil(day int) int {
	count := 0
	for _, kinds := range c.sessions[:min(day+1, len(c.sessions))] {
		for _, n := range kinds {
			count += n
		}
	}
	return count
}

// firstDay is the first day by whose end the expected passes reach a number; false
// beyond the schedule.
func (c calendar) firstDay(passes float64, days []wear.Day) (time.Time, bool) {
	for i, d := range days {
		if d.Passes >= passes {
			return c.date(i), true
		}
	}
	return time.Time{}, false
}
