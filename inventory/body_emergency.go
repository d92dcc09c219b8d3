package inventory

// Emergency is a player who came off with something broken. Nobody skates on the
// suspects until somebody looked at them.
type Emergency struct {
	Player   Number   `json:"player"`
	Pair     Number   `json:"pair"`
	Side     Side     `json:"side"`
	Suspects []Number `json:"suspects,omitempty"` // the holder, the runner or both; none where a damage says it
}

// Kind is the word in the record.
func (*Emergency) Kind() string { return "emergency" }

// Touches names the player, the pair and the suspects.
func (b *Emergency) Touches() []Ref {
	return append(numbered(b.Player, b.Pair), numbered(b.Suspects...)...)
}

// EmergencyDone is how the player got back on the ice.
type EmergencyDone struct {
	Emergency    Key      `json:"emergency"` // what it was the end of
	Player       Number   `json:"player"`
	Did          string   `json:"did"` // one of Remedies
	With         []Number `json:"with,omitempty"`
	Minutes      *float64 `json:"minutes,omitempty"` // until the player was back
	ShiftsMissed *int     `json:"shifts_missed,omitempty"`
	Temporary    bool     `json:"temporary,omitempty"` // the thing itself is still to be mended
	Note         string   `json:"note,omitempty"`
}

// Kind is the word in the record.
func (*EmergencyDone) Kind() string { return "emergency-done" }

// Touches names the player.
func (b *EmergencyDone) Touches() []Ref { return numbered(b.Player) }

// EmergencyClosed says that what was mended for the moment is mended for good.
type EmergencyClosed struct {
	Emergency Key    `json:"emergency"`
	Player    Number `json:"player"`
	Note      string `json:"note,omitempty"`
}

// Kind is the word in the record.
func (*EmergencyClosed) Kind() string { return "emergency-closed" }

// Touches names the player.
func (b *EmergencyClosed) Touches() []Ref { return numbered(b.Player) }
