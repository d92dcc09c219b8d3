package inventory

import "time"

// The years that a record can be about, both within; outside of them a time is a slip,
// or a clock's that stands wrong.
const (
	LeastYear = 1990
	MostYear  = 2100
)

// InYears tells whether all of a time lies in the years that a record can be about, on
// the clocks of a zone. An unknown time does.
func (w When) InYears(zone *time.Location) bool {
	if w.Unknown() {
		return true
	}
	return w.within(yearsStart(zone, LeastYear), yearsStart(zone, MostYear+1))
}

// within tells whether a time lies from first until before after, which can be the end
// of an interval.
func (w When) within(first, after time.Time) bool {
	return !w.Start.Before(first) && w.Start.Before(after) && !w.End.After(after)
}

func yearsStart(zone *time.Location, year int) time.Time {
	return time.Date(year, time.January, 1, 0, 0, 0, 0, zone)
}

// farthestZone is how far a zone's clocks differ from UTC, at most.
const farthestZone = 14 * time.Hour

// InYears tells whether both of an event's times lie in the years that a record can be
// about, in some zone. This program writes no others.
func (e *Event) InYears() bool {
	return !e.Noted.IsZero() && At(e.Noted).inYears() && e.Happened.inYears()
}

// inYears tells whether a time lies in those years in some zone. An unknown one does.
func (w When) inYears() bool {
	first := yearsStart(time.UTC, LeastYear).Add(-farthestZone)
	after := yearsStart(time.UTC, MostYear+1).Add(farthestZone)
	return w.Unknown() || w.within(first, after)
}
