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
