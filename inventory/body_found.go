package inventory

import "steeltally/geometry"

// FoundOld is an old runner that was found with nothing but what a marker pen wrote on
// it. The event's time is when it came off, as vague as that is known.
type FoundOld struct {
	Piece       Number `json:"piece"` // given when it was found
	Player      Number `json:"player,omitempty"`
	Sweater     int    `json:"sweater,omitempty"` // as written on it
	Side        Side   `json:"side,omitempty"`
	Inscription string `json:"inscription"` // as it stands
	Place       *Place `json:"place,omitempty"`
}

// Kind is the word in the record.
func (*FoundOld) Kind() string { return "found" }

// Touches names the piece and the player.
func (b *FoundOld) Touches() []Ref {
	return append(numbered(b.Piece, b.Player), CounterOf(b.Piece))
}

// KnownFromTag is a removed piece of which the record knows what its tag says, and no
// more. The event's time is when it came off.
type KnownFromTag struct {
	Piece      Number               `json:"piece"`
	Generation int                  `json:"generation"`
	Player     Number               `json:"player,omitempty"`
	Sweater    int                  `json:"sweater,omitempty"`
	Side       Side                 `json:"side,omitempty"`
	In         When                 `json:"in"`
	New        *geometry.Millimetre `json:"height_new_mm,omitempty"`
	Final      *geometry.Millimetre `json:"height_final_mm,omitempty"`
	Grinds     int                  `json:"grinds"`
	Passes     int                  `json:"passes"`
	Unknown    bool                 `json:"passes_unknown,omitempty"` // works of unknown passes come on top
	Hollow     *Cut                 `json:"hollow,omitempty"`
	Reason     string               `json:"reason,omitempty"`
	Later      []string             `json:"later,omitempty"` // fields of a later version of the tag
}

// Kind is the word in the record.
func (*KnownFromTag) Kind() string { return "from-tag" }

// Touches names the piece and the player, who may be known from tags alone too.
func (b *KnownFromTag) Touches() []Ref {
	refs := append(numbered(b.Piece, b.Player), CounterOf(b.Piece))
	if b.Player != 0 {
		refs = append(refs, CounterOf(b.Player), RosterRef)
	}
	return refs
}
