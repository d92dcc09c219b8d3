package inventory

import "steeltally/geometry"

// Tried is a pair that its player tried: a few laps, enough to say whether he would
// play on it. A whole practice or game on it is Skated.
type Tried struct {
	Pair     Number `json:"pair"`
	Player   Number `json:"player"`
	Declined bool   `json:"declined,omitempty"` // he would rather not
	Note     string `json:"note,omitempty"`
}

// Kind is the word in the record.
func (*Tried) Kind() string { return "tried" }

// Touches names the pair and its player.
func (b *Tried) Touches() []Ref { return numbered(b.Pair, b.Player) }

// Skated is a practice or a game on a pair that is not its player's first: its edges
// are used from then on.
type Skated struct {
	Pair   Number `json:"pair"`
	Player Number `json:"player"`
	Set    Number `json:"set,omitempty"` // what was on
	Game   bool   `json:"game,omitempty"`
}

// Kind is the word in the record.
func (*Skated) Kind() string { return "skated" }

// Touches names the pair and its player.
func (b *Skated) Touches() []Ref { return numbered(b.Pair, b.Player) }

// Pitched says how a pair's holders are pitched, heel minus toe.
type Pitched struct {
	Pair  Number              `json:"pair"`
	Pitch geometry.Millimetre `json:"pitch_mm"`
}

// Kind is the word in the record.
func (*Pitched) Kind() string { return "pitch" }

// Touches names the pair.
func (b *Pitched) Touches() []Ref { return numbered(b.Pair) }
