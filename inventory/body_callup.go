package inventory

import "steeltally/geometry"

// CalledUp is what was said of a player who joins at short notice, before anybody saw
// his skates. What is nil or empty nobody knows yet; Ask lists what he shall be asked.
type CalledUp struct {
	Player  Number               `json:"player"`
	Family  string               `json:"family,omitempty"` // of his holders
	Sizes   Both[int]            `json:"size_mm"`
	Hollow  *Cut                 `json:"hollow,omitempty"`
	Profile Profile              `json:"profile_mm,omitempty"`
	Pitch   *geometry.Millimetre `json:"pitch_mm,omitempty"`
	Ask     []string             `json:"ask,omitempty"` // of Unknowns
}

// Kind is the word in the record.
func (*CalledUp) Kind() string { return "callup" }

// Touches names the player.
func (b *CalledUp) Touches() []Ref { return numbered(b.Player) }
