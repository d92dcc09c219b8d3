package review

import (
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
)

// Life is what one runner or holder went through.
type Life struct {
	Number  inventory.Number                     `json:"number"`
	FromTag bool                                 `json:"-"` // nothing but its tag is known
	Model   string                               `json:"-"`
	Size    int                                  `json:"-"`
	Lot     string                               `json:"-"`
	Order   string                               `json:"-"` // purchase order
	Fitted  inventory.When                       `json:"-"`
	Player  inventory.Number                     `json:"player"`
	Sweater int                                  `json:"sweater"`
	Side    inventory.Side                       `json:"side"`
	Set     inventory.Number                     `json:"-"`
	Place   int                                  `json:"set_order_recorded"` // the how-manieth set of its player, as recorded; 0: not known
	In      inventory.When                       `json:"in"`
	Out     inventory.When                       `json:"out"`
	InUse   bool                                 `json:"-"`        // not done with
	Days    *int                                 `json:"days"`     // in use, where the dates are known
	Times   *int                                 `json:"sessions"` // sessions of the club in use, where there is a schedule
	Grinds  int                                  `json:"grinds"`
	Passes  int                                  `json:"passes"`
	Unknown bool                                 `json:"passes_unknown"` // passes that nobody counted come on top
	New     *geometry.Millimetre                 `json:"height_new_mm"`
	Final   *geometry.Millimetre                 `json:"height_final_mm"`  // last height of steel that is done with
	Change  *geometry.Millimetre                 `json:"change_height_mm"` // at which its player changed then
	Refused bool                                 `json:"-"`                // he had been asked to change before
	Hollow  inventory.Cut                        `json:"-"`
	Reason  inventory.Why                        `json:"reason"`
	Damages []inventory.Dated[inventory.Damaged] `json:"-"`

	spans  []span
	counts Sessions
	runner *inventory.Runner
	tag    *inventory.TagFacts
	hands  map[inventory.Key]hand // who ground it, by entry

	elsewhere bool // steel was taken off it while it was in another set
}

// Steel tells whether it is a runner.
func (l *Life) Steel() bool { return l.Number.Kind() == inventory.KindRunner }

// Below tells whether it was taken off below its player's change height.
func (l *Life) Below() bool { return l.Final != nil && l.Change != nil && *l.Final < *l.Change }

// Within tells whether a piece was in use after an instant.
func (l *Life) Within(from time.Time) bool {
	if l.In.Unknown() && l.Out.Unknown() && l.InUse {
		return false // never used
	}
	return l.InUse || l.Out.Unknown() || !l.Out.Start.Before(from)
}

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
