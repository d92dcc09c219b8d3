package inventory

import (
	"strings"
	"time"
)

// Session is a game or a practice of the club; it happens when the event happened.
type Session struct {
	Game     bool        `json:"game,omitempty"`
	Opponent string      `json:"opponent,omitempty"`
	Away     bool        `json:"away,omitempty"`
	Note     string      `json:"note,omitempty"`
	Month    Ref         `json:"month"`              // the part of the schedule that it belongs to
	Calendar *InCalendar `json:"calendar,omitempty"` // where it was imported from
}

// Kind is the word in the record.
func (*Session) Kind() string { return "session" }

// Touches names the month of the schedule.
func (b *Session) Touches() []Ref { return []Ref{b.Month} }

func (b *Session) line(Teller, *Event) string { return SaySession(b) }

// InCalendar is how a calendar file tells one entry from another, so that one that
// moved is known again.
type InCalendar struct {
	UID      string `json:"uid"`
	Instance When   `json:"instance"` // which one of what recurs; unknown: it does not recur
	Sequence int    `json:"sequence,omitempty"`
}

// SaySession says what a session is, such as a game and against whom.
func SaySession(b *Session) string {
	if !b.Game {
		return strings.TrimSpace("practice " + b.Note)
	}
	if b.Away {
		return "game at " + b.Opponent
	}
	return "game against " + b.Opponent
}

// Schedule is the games and practices of one month.
type Schedule struct {
	Sessions Timeline[Session] `json:"sessions"`
}

// Apply folds one event.
func (s *Schedule) Apply(e *Event) {
	if b, ok := e.Body.(*Session); ok {
		s.Sessions.add(e, *b)
	}
}

// lookBack is how many months back a last game is looked for: a summer is shorter.
const lookBack = 8

// LastGame is the latest game that had started at an instant, within eight months.
func LastGame(v View, at time.Time) (Dated[Session], bool) {
	month := at.UTC()
	for range lookBack {
		if schedule, ok := v.Entity(ScheduleRef(month)).(*Schedule); ok {
			sessions := schedule.Sessions.Until(at)
			for i := len(sessions) - 1; i >= 0; i-- {
				if sessions[i].Value.Game {
					return sessions[i], true
				}
			}
		}
		month = time.Date(month.Year(), month.Month()-1, 1, 0, 0, 0, 0, time.UTC)
	}
	return Dated[Session]{}, false
}

// Sessions lists the games and practices that start in [from, until), in order.
func Sessions(v View, from, until time.Time) Timeline[Session] {
	var found Timeline[Session]
	month := time.Date(from.UTC().Year(), from.UTC().Month(), 1, 0, 0, 0, 0, time.UTC)
	for ; month.Before(until); month = month.AddDate(0, 1, 0) {
		schedule, ok := v.Entity(ScheduleRef(month)).(*Schedule)
		if !ok {
			continue
		}
		for _, session := range schedule.Sessions {
			if start := session.When.Start; !start.Before(from) && start.Before(until) {
				found = append(found, session)
			}
		}
	}
	return found
}
