package outlook

import (
	"time"

	"steeltally/inventory"
	"steeltally/inventory/wear"
)

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
