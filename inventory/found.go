package inventory

import (
	"fmt"
	"strings"

	"steeltally/geometry"
)

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

func (b *FoundOld) line(t Teller, _ *Event) string {
	parts := append([]string{"found, an old runner marked " + Quoted(b.Inscription)}, t.owner(b.Player, b.Sweater, b.Side)...)
	if strokes := SayStrokes(b.Inscription); strokes != "" {
		parts = append(parts, strokes)
	}
	return strings.Join(parts, ", ")
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
	Reason     Why                  `json:"reason,omitempty"`
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

func (b *KnownFromTag) line(t Teller, _ *Event) string {
	parts := append([]string{fmt.Sprintf("removed, known from its tag (generation %d)", b.Generation)}, t.owner(b.Player, b.Sweater, b.Side)...)
	parts = append(parts, fmt.Sprintf("%d grinds, %d passes", b.Grinds, b.Passes))
	if b.Unknown {
		parts[len(parts)-1] += " and others nobody counted"
	}
	if b.Final != nil {
		parts = append(parts, b.Final.String()+" high")
	}
	if b.Reason != "" {
		parts = append(parts, string(b.Reason))
	}
	return strings.Join(parts, ", ")
}

// owner says whose a piece was, as far as that is known.
func (t Teller) owner(player Number, sweater int, side Side) []string {
	var parts []string
	if name := t.player(player); player != 0 && name != "" {
		parts = append(parts, name)
	}
	if sweater != 0 {
		parts = append(parts, fmt.Sprintf("sweater %d", sweater))
	}
	if side != "" {
		parts = append(parts, string(side))
	}
	return parts
}
