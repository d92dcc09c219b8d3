package inventory

// Session is a game or a practice of the club; it happens when the event happened.
type Session struct {
	Game     bool        `json:"game,omitempty"`
	Opponent string      `json:"opponent,omitempty"`
	Away     bool        `json:"away,omitempty"`
	Note     string      `json:"note,omitempty"`
	Month    Ref         `json:"month"`              // the part of the schedule that it belongs to
	Calendar *InCalendar `json:"calendar,omitempty"` // where it was imported from
}

// InCalendar is how a calendar file tells one entry from another, so that one that
// moved is known again.
type InCalendar struct {
	UID      string `json:"uid"`
	Instance When   `json:"instance"` // which one of what recurs; unknown: it does not recur
	Sequence int    `json:"sequence,omitempty"`
}

// Kind is the word in the record.
func (*Session) Kind() string { return "session" }

// Touches names the month of the schedule.
func (b *Session) Touches() []Ref { return []Ref{b.Month} }
