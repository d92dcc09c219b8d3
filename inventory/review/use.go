package review

import (
	"time"

	"steeltally/inventory"
)

// span is a time in use.
type span struct{ from, until time.Time }

// timesUntil counts the sessions that the piece was in use until a time.
func (l *Life) timesUntil(until time.Time) int {
	times := 0
	for _, s := range l.spans {
		end := s.until
		if end.After(until) {
			end = until
		}
		times += l.counts.Between(s.from, end)
	}
	return times
}

// use adds a time in use; what is not known to the day leaves it open how long.
func (l *Life) use(in, out inventory.When) (known bool) {
	if !dayKnown(in) || !dayKnown(out) {
		return false
	}
	l.spans = append(l.spans, span{in.Start, out.Start})
	return true
}

// addUse adds up the times in use, where all of them are known.
func (l *Life) addUse(known bool, r *Reader) {
	if !known || len(l.spans) == 0 {
		l.spans = nil
		return
	}
	days := 0
	for _, s := range l.spans {
		days += daysBetween(s.from, s.until, r.zone)
	}
	l.Days, l.counts = &days, r.sessions
	if r.sessions.Any() {
		times := l.timesUntil(r.at)
		l.Times = &times
	}
}

// dayKnown tells whether a time is known to the day.
func dayKnown(w inventory.When) bool {
	return !w.Unknown() && w.End.Sub(w.Start) <= 36*time.Hour
}

// daysBetween counts days by the calendar.
func daysBetween(from, until time.Time, zone *time.Location) int {
	day := func(t time.Time) time.Time {
		local := t.In(zone)
		return time.Date(local.Year(), local.Month(), local.Day(), 0, 0, 0, 0, time.UTC)
	}
	return int(day(until).Sub(day(from)).Hours() / 24)
}
