package inventory

// Session is a game or a practice of the club; it happens when the event happened.
type Session struct {
	Game     bool   `json:"game,omitempty"`
	Opponent string `json:"opponent,omitempty"`
	Away     bool   `json:"away,omitempty"`
	Note     string `json:"note,omitempty"`
	Month    Ref    `json:"month"` // the part of the schedule that it belongs to
}

// Kind is the word in the record.
func (*Session) Kind() string { return "session" }

// Touches names the month of the schedule.
func (b *Session) Touches() []Ref { return []Ref{b.Month} }
