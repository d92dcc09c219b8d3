package inventory

// Refused is a player who was asked to change and would not. The event's time is when
// he was asked.
type Refused struct {
	Player Number `json:"player"`
	Pair   Number `json:"pair"`
	Set    Number `json:"set"`    // what was on and stays on
	Answer string `json:"answer"` // in his words
	Review When   `json:"review"` // when to ask again
}

// Kind is the word in the record.
func (*Refused) Kind() string { return "refusal" }

// Touches names the player, the pair and the set.
func (b *Refused) Touches() []Ref { return numbered(b.Player, b.Pair, b.Set) }
