package inventory

import (
	"cmp"
	"fmt"
	"strings"
	"time"
)

// When is the time that something happened: an instant, or an interval where it is
// vague (a day, a month, a season). The zero When is unknown and sorts first.
// Start is inside the interval, End is the first instant after it; for an instant
// both are equal. Both are kept in UTC, whole seconds.
type When struct{ Start, End time.Time }

// At is the instant t.
func At(t time.Time) When {
	s := t.UTC().Truncate(time.Second)
	return When{s, s}
}

// Between is the vague time from start until before end.
func Between(start, end time.Time) When { return When{At(start).Start, At(end).Start} }

// Unknown tells whether nothing is known of the time.
func (w When) Unknown() bool { return w.Start.IsZero() }

// Exact tells whether the time is an instant; only such times enter a wear series.
func (w When) Exact() bool { return !w.Unknown() && w.Start.Equal(w.End) }

// Compare sorts by start; of two that start together the vaguer comes first.
func (w When) Compare(other When) int {
	return cmp.Or(w.Start.Compare(other.Start), -w.End.Compare(other.End))
}

// After tells whether all of w lies after the instant t.
func (w When) After(t time.Time) bool { return w.Start.After(t) }

// Meets tells whether two times can be the same one: one is not known, or they overlap.
func (w When) Meets(other When) bool {
	return w.Unknown() || other.Unknown() || w.last() >= other.Start.Unix() && other.last() >= w.Start.Unix()
}

// last is the last second of a time.
func (w When) last() int64 {
	if w.Exact() {
		return w.Start.Unix()
	}
	return w.End.Unix() - 1
}

const unknownWhen = "unknown"

// MarshalText writes an instant as RFC 3339 in UTC, a vague time as an ISO 8601
// interval of two instants, and an unknown one as "unknown".
func (w When) MarshalText() ([]byte, error) {
	switch {
	case w.Unknown():
		return []byte(unknownWhen), nil
	case w.Exact():
		return []byte(w.Start.Format(time.RFC3339)), nil
	}
	return []byte(w.Start.Format(time.RFC3339) + "/" + w.End.Format(time.RFC3339)), nil
}

// UnmarshalText reads what MarshalText writes.
func (w *When) UnmarshalText(text []byte) error {
	if string(text) == unknownWhen {
		*w = When{}
		return nil
	}
	from, until, vague := strings.Cut(string(text), "/")
	start, err := parseInstant(from)
	if err != nil {
		return fmt.Errorf("%q is not a time: %w", text, err)
	}
	if !vague {
		*w = At(start)
		return nil
	}
	end, err := parseInstant(until)
	if err != nil || end.Before(start) {
		return fmt.Errorf("%q is not an interval of time", text)
	}
	*w = Between(start, end)
	return nil
}

// parseInstant reads RFC 3339; a year that can't be written in UTC again is none.
func parseInstant(text string) (time.Time, error) {
	t, err := time.Parse(time.RFC3339, text)
	if year := t.UTC().Year(); err == nil && (year < 0 || year > 9999) {
		err = fmt.Errorf("the year %d has no four digits", year)
	}
	return t, err
}

// Say writes the time as a person in the zone would: "28 Nov 2025 09:00", or as
// vague as it is: "28 Nov 2025", "Nov 2025", "2025", "Sep 2025 to May 2026".
func (w When) Say(zone *time.Location) string {
	if w.Unknown() {
		return "date unknown"
	}
	start, end := w.Start.In(zone), w.End.In(zone)
	if w.Exact() {
		return start.Format("2 Jan 2006 15:04")
	}
	for _, unit := range vagueUnits {
		if isStartOf(start, unit) && end.Equal(start.AddDate(unit.years, unit.months, unit.days)) {
			return start.Format(unit.layout)
		}
	}
	first, last := start.Format("2 Jan 2006"), end.Add(-time.Second).Format("2 Jan 2006")
	if first == last {
		return first // what is left of a day
	}
	return first + " to " + last
}

type vagueUnit struct {
	years, months, days int
	layout              string
}

var vagueUnits = [...]vagueUnit{{0, 0, 1, "2 Jan 2006"}, {0, 1, 0, "Jan 2006"}, {1, 0, 0, "2006"}}

func isStartOf(t time.Time, unit vagueUnit) bool {
	midnight := t.Hour() == 0 && t.Minute() == 0 && t.Second() == 0
	return midnight && (unit.days > 0 || t.Day() == 1) && (unit.years == 0 || t.YearDay() == 1)
}

// SayDay is the day without its time, for tags and tables: "28 Nov 2025"; a vague
// time says as much as is known.
func (w When) SayDay(zone *time.Location) string {
	if w.Exact() {
		return w.Start.In(zone).Format("2 Jan 2006")
	}
	return w.Say(zone)
}

// ParseWhen reads a time as a person types it: an RFC 3339 instant, "2025-11-04
// 09:00" or "2025-11-04T09:00" in the zone; or, as vague as it is known,
// "2025-11-04", "2025-11", "2025", "2025/26" (a season, from September until the end
// of August) and "unknown".
func ParseWhen(text string, zone *time.Location) (When, error) {
	s := strings.TrimSpace(text)
	if s == unknownWhen {
		return When{}, nil
	}
	w, err := readWhen(s, zone)
	if err == nil && (w.Unknown() || !w.InYears(zone)) { // the zero time can be typed, too
		return When{}, fmt.Errorf("the year of %q can't be right: it is one from %d to %d", Clip(text), LeastYear, MostYear)
	}
	return w, err
}

func readWhen(s string, zone *time.Location) (When, error) {
	if t, err := time.Parse(time.RFC3339, s); err == nil {
		return At(t), nil
	}
	for _, layout := range []string{"2006-01-02 15:04", "2006-01-02T15:04", "2006-01-02 15:04:05", "2006-01-02T15:04:05"} {
		if t, err := time.ParseInLocation(layout, s, zone); err == nil {
			return At(t), nil
		}
	}
	for layout, unit := range map[string]vagueUnit{"2006-01-02": vagueUnits[0], "2006-01": vagueUnits[1], "2006": vagueUnits[2]} {
		if t, err := time.ParseInLocation(layout, s, zone); err == nil {
			return Between(t, t.AddDate(unit.years, unit.months, unit.days)), nil
		}
	}
	if season, ok := parseSeason(s, zone); ok {
		return season, nil
	}
	return When{}, fmt.Errorf("%q is not a time; write 2025-11-04T09:00, or as much as is known: 2025-11-04, 2025-11, 2025/26, unknown", Clip(s))
}

// Season is the season that a time began in: "2025/26".
func (w When) Season(zone *time.Location) string {
	first := w.Start.In(zone).AddDate(0, -8, 0).Year()
	return fmt.Sprintf("%d/%02d", first, (first+1)%100)
}

// parseSeason reads "2025/26" or "2025/2026": September to August, common practice.
func parseSeason(s string, zone *time.Location) (When, bool) {
	from, until, found := strings.Cut(s, "/")
	start, err := time.ParseInLocation("2006", from, zone)
	next := start.AddDate(1, 0, 0).Format("2006")
	if !found || err != nil || (until != next && until != next[2:]) {
		return When{}, false
	}
	first := start.AddDate(0, 8, 0)
	return Between(first, first.AddDate(1, 0, 0)), true
}

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
