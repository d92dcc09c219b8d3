package calendar

import (
	"cmp"
	"errors"
	"slices"
	"strconv"
	"strings"
	"time"

	ics "github.com/arran4/golang-ical"
)

// expand lists when a rule comes, from a start that is its first time, until an instant.
// Times keep their reading of the clocks across changes of summer time.
func (r rule) expand(start, until time.Time, work *steps) ([]time.Time, error) {
	if !r.until.IsZero() && r.until.Before(until) {
		until = r.until
	}
	all := []time.Time{start}
	for period := 0; len(all) <= mostInstances; period++ {
		first, days := r.period(start, period*r.interval)
		if inLocation(first, start.Location()).After(until) {
			break
		}
		if err := work.take((1 + len(days)) * r.weight()); err != nil {
			return nil, err
		}
		for _, day := range r.picked(start, days) {
			at := time.Date(day.Year(), day.Month(), day.Day(), start.Hour(), start.Minute(), start.Second(), 0, start.Location())
			if !at.After(start) {
				continue
			}
			if at.After(until) || r.count > 0 && len(all) >= r.count {
				return all, nil
			}
			all = append(all, at)
		}
		if r.count > 0 && len(all) >= r.count {
			break
		}
	}
	return all, nil
}

// weight is how much there is to look at for each day.
func (r rule) weight() int {
	return 1 + len(r.days) + len(r.months) + len(r.monthDays) + len(r.positions)
}

// period lists the days of the nth period from the one that a start lies in that are in
// the rule's months, and the period's first day. Days are midnights in UTC, to be free of clocks.
func (r rule) period(start time.Time, n int) (first time.Time, days []time.Time) {
	day := time.Date(start.Year(), start.Month(), start.Day(), 0, 0, 0, 0, time.UTC)
	var next time.Time
	switch r.every {
	case "DAILY":
		first = day.AddDate(0, 0, n)
		next = first.AddDate(0, 0, 1)
	case "WEEKLY":
		first = day.AddDate(0, 0, 7*n-(int(day.Weekday())-int(r.weekStarts)+7)%7)
		next = first.AddDate(0, 0, 7)
	case "MONTHLY":
		first = time.Date(day.Year(), day.Month()+time.Month(n), 1, 0, 0, 0, 0, time.UTC)
		next = first.AddDate(0, 1, 0)
	default:
		first = time.Date(day.Year()+n, 1, 1, 0, 0, 0, 0, time.UTC)
		next = first.AddDate(1, 0, 0)
	}
	for d := first; d.Before(next); d = d.AddDate(0, 0, 1) {
		if r.months != nil && !slices.Contains(r.months, int(d.Month())) {
			d = time.Date(d.Year(), d.Month()+1, 0, 0, 0, 0, 0, time.UTC) // on to the next month
			continue
		}
		days = append(days, d)
	}
	return first, days
}

// picked are the days of a period that the rule means.
func (r rule) picked(start time.Time, days []time.Time) []time.Time {
	var picked []time.Time
	for _, day := range days {
		if r.means(start, day) {
			picked = append(picked, day)
		}
	}
	if r.positions == nil {
		return picked
	}
	var some []time.Time
	for _, position := range r.positions {
		at := position - 1
		if position < 0 {
			at = len(picked) + position
		}
		if at >= 0 && at < len(picked) {
			some = append(some, picked[at])
		}
	}
	slices.SortFunc(some, time.Time.Compare)
	return slices.CompactFunc(some, time.Time.Equal)
}

// means tells whether the rule means a day. Where it does not say which, it is the day
// of the week, of the month or of the year that the start is.
func (r rule) means(start, day time.Time) bool {
	if r.monthDays != nil && !slices.ContainsFunc(r.monthDays, func(n int) bool { return isMonthDay(day, n) }) {
		return false
	}
	if r.days != nil {
		return slices.ContainsFunc(r.days, func(w weekday) bool { return r.isDay(day, w) })
	}
	if r.monthDays != nil {
		return true
	}
	switch r.every {
	case "WEEKLY":
		return day.Weekday() == start.Weekday()
	case "MONTHLY":
		return day.Day() == start.Day()
	case "YEARLY":
		return day.Day() == start.Day() && (r.months != nil || day.Month() == start.Month())
	}
	return true
}

// isMonthDay tells whether a day is the nth of its month, from the end below zero.
func isMonthDay(day time.Time, n int) bool {
	if n > 0 {
		return day.Day() == n
	}
	last := time.Date(day.Year(), day.Month()+1, 0, 0, 0, 0, 0, time.UTC).Day()
	return day.Day() == last+1+n
}

// isDay tells whether a day is such a day of the week; the nth one is counted in the
// year where the rule is yearly and names no months, else in the month.
func (r rule) isDay(day time.Time, w weekday) bool {
	if day.Weekday() != w.day {
		return false
	}
	if w.n == 0 || r.every == "DAILY" || r.every == "WEEKLY" {
		return true
	}
	number, length := day.Day(), time.Date(day.Year(), day.Month()+1, 0, 0, 0, 0, 0, time.UTC).Day()
	if r.every == "YEARLY" && r.months == nil {
		number, length = day.YearDay(), time.Date(day.Year(), 12, 31, 0, 0, 0, 0, time.UTC).YearDay()
	}
	if w.n > 0 {
		return (number-1)/7+1 == w.n
	}
	return (length-number)/7+1 == -w.n
}

// mostSteps bounds the work that a file can ask for. A season of a club's practices
// takes some ten thousand; the largest number of steps some seconds.
const mostSteps = 5_000_000

var errTooMuch = errors.New("its rules stand for more than can be followed: export a shorter time")

// steps counts the work that a file asks for.
type steps struct{ taken int }

// take counts some steps; an error where they are too many.
func (s *steps) take(n int) error {
	if s.taken += n; s.taken > mostSteps {
		return errTooMuch
	}
	return nil
}

// namesakes are the entries of a file with one UID, of one instance.
type namesakes struct {
	last    *ics.VEvent // that was changed last
	unclear bool        // another was changed as often, and says something else
}

// once leaves out what the file has twice under one UID, and says so: of several the one
// that was changed last stays. Where that can't be told, none does, since the next file
// could not say which of them it means.
func (r *reader) once(events []*ics.VEvent) []*ics.VEvent {
	alike := map[string]*namesakes{}
	for _, event := range events {
		name := nameOf(event)
		if alike[name] == nil {
			alike[name] = &namesakes{last: event}
			continue
		}
		alike[name].add(event)
	}
	return slices.DeleteFunc(slices.Clone(events), func(event *ics.VEvent) bool {
		of := alike[nameOf(event)]
		reason := "it is in the file twice under one UID"
		switch {
		case text(event, ics.ComponentPropertyUniqueId) == "":
			return false
		case sequenceOf(event) < sequenceOf(of.last):
			reason = "its UID is in the file twice, and the other entry was changed later"
		case of.unclear:
			reason = "its UID is in the file twice, so that a later change could not be told from one of the other entry"
		case event == of.last:
			return false
		}
		r.skip(event, reason, !of.unclear)
		return true
	})
}

func (n *namesakes) add(event *ics.VEvent) {
	switch cmp.Compare(sequenceOf(event), sequenceOf(n.last)) {
	case 1:
		*n = namesakes{last: event}
	case 0:
		n.unclear = n.unclear || meant(event) != meant(n.last)
	}
}

// nameOf is what the file tells an entry from others by.
func nameOf(event *ics.VEvent) string {
	return text(event, ics.ComponentPropertyUniqueId) + "\n" + text(event, ics.ComponentPropertyRecurrenceId)
}

func sequenceOf(event *ics.VEvent) int {
	sequence, _ := strconv.Atoi(text(event, ics.ComponentPropertySequence))
	return sequence
}

// meant is what an entry says of what matters here.
func meant(event *ics.VEvent) string {
	var all []string
	for _, name := range []ics.ComponentProperty{
		ics.ComponentPropertyDtStart, ics.ComponentPropertySummary, ics.ComponentPropertyLocation, ics.ComponentPropertyStatus,
		ics.ComponentPropertyRrule, ics.ComponentPropertyRdate, ics.ComponentPropertyExdate, ics.ComponentPropertyCategories,
	} {
		for _, p := range event.GetProperties(name) {
			all = append(all, string(name), parameter(p, "TZID"), p.Value)
		}
	}
	return strings.Join(all, "\n")
}
