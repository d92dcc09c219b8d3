package inventory

import (
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Damaged is what was found wrong with a piece.
type Damaged struct {
	Piece        Number   `json:"piece"`
	Pair         Number   `json:"pair,omitempty"`
	Player       Number   `json:"player,omitempty"`
	Mode         Mode     `json:"mode"`
	Zone         Zone     `json:"zone,omitempty"`
	Face         string   `json:"face,omitempty"`
	Cause        string   `json:"cause,omitempty"`
	Found        string   `json:"found,omitempty"`
	Unsafe       bool     `json:"unsafe,omitempty"` // nobody skates on it
	ShiftsMissed *int     `json:"shifts_missed,omitempty"`
	Minutes      *float64 `json:"minutes,omitempty"` // until the player was back
	Note         string   `json:"note,omitempty"`
	Photos       []string `json:"photos,omitempty"` // files among the book's photographs
}

// Kind is the word in the record.
func (*Damaged) Kind() string { return "damage" }

// Touches names the piece, the pair that it was on, the player, and the shelf where a
// piece lies no more once nobody may skate on it.
func (b *Damaged) Touches() []Ref {
	refs := numbered(b.Piece, b.Pair, b.Player)
	if b.Unsafe {
		refs = append(refs, shelvesOf(b.Piece)...)
	}
	return refs
}

// same tells whether two entries say the same of a piece, whatever they say of how it came.
func (b *Damaged) same(other *Damaged) bool {
	return b.Mode == other.Mode && b.Zone == other.Zone && b.Face == other.Face && b.Note == other.Note
}

// Where is what happened and in which zone, where that is known: "crack rear-tower".
func (b *Damaged) Where() string {
	return strings.TrimSpace(string(b.Mode) + " " + string(b.Zone))
}

func (b *Damaged) line(Teller, *Event) string {
	line := b.Piece.Short() + " " + string(b.Mode)
	for _, word := range []string{string(b.Zone), b.Face, b.Cause, b.Note} {
		if word != "" {
			line += ", " + word
		}
	}
	if b.ShiftsMissed != nil {
		line += fmt.Sprintf(", shifts missed: %d", *b.ShiftsMissed)
	}
	if b.Minutes != nil {
		line += ", took " + sayMinutes(*b.Minutes)
	}
	if len(b.Photos) > 0 {
		line += fmt.Sprintf(", photographs: %d", len(b.Photos))
	}
	if b.Unsafe {
		line += ": DO NOT SKATE"
	}
	return line
}

// Inspected is a look at bolts, rivets and the piece itself.
type Inspected struct {
	Pieces []Number `json:"pieces"`
	Sound  bool     `json:"sound"`
	Note   string   `json:"note,omitempty"`
}

// Kind is the word in the record.
func (*Inspected) Kind() string { return "inspect" }

// Touches names the pieces.
func (b *Inspected) Touches() []Ref { return numbered(b.Pieces...) }

func (b *Inspected) line(Teller, *Event) string {
	if b.Sound {
		return strings.TrimSuffix("looked at, sound; "+b.Note, "; ")
	}
	return strings.TrimSuffix("looked at, not sound; "+b.Note, "; ")
}

// Look is one inspection of a piece.
type Look struct {
	Sound bool   `json:"sound"`
	Note  string `json:"note,omitempty"`
	By    string `json:"by,omitempty"`
}

// sayMinutes writes minutes to a hundredth, as somebody would note them.
func sayMinutes(minutes float64) string {
	return strconv.FormatFloat(math.Round(minutes*100)/100, 'f', -1, 64) + " min"
}
