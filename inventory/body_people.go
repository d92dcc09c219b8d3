package inventory

import "steeltally/geometry"

// ClubNoted opens a book, or changes what is said of the club.
type ClubNoted struct {
	Name    string `json:"name"`
	Zone    string `json:"zone"` // IANA time zone
	Station int    `json:"station"`
}

// Kind is the word in the record.
func (*ClubNoted) Kind() string { return "club" }

// Touches names the club.
func (*ClubNoted) Touches() []Ref { return []Ref{ClubRef} }

// PlayerNoted adds a player, or changes a name, position or sweater from a day on.
type PlayerNoted struct {
	Player   Number `json:"player"`
	Name     string `json:"name"`
	Position string `json:"position,omitempty"`
	Sweater  int    `json:"sweater,omitempty"` // 0: none, as in camp
	Gone     bool   `json:"gone,omitempty"`    // left the club
}

// Kind is the word in the record.
func (*PlayerNoted) Kind() string { return "player" }

// wears is the sweater number from then on: who left the club wears none.
func (b *PlayerNoted) wears() int {
	if b.Gone {
		return 0
	}
	return b.Sweater
}

// Touches names the player, and the roster.
func (b *PlayerNoted) Touches() []Ref {
	return append(numbered(b.Player), RosterRef, CounterOf(b.Player))
}

// SpecsNoted changes what a player's steel shall be, from a day on. What is nil or
// empty stays as it was.
type SpecsNoted struct {
	Player       Number               `json:"player"`
	Hollow       *Cut                 `json:"hollow,omitempty"`
	Profile      Profile              `json:"profile_mm,omitempty"`
	Pitch        *geometry.Millimetre `json:"pitch_mm,omitempty"` // heel minus toe
	Passes       *int                 `json:"passes,omitempty"`   // usual, each side
	ChangeHeight *geometry.Millimetre `json:"change_height_mm,omitempty"`
}

// Kind is the word in the record.
func (*SpecsNoted) Kind() string { return "specs" }

// Touches names the player.
func (b *SpecsNoted) Touches() []Ref { return numbered(b.Player) }

// numbered names the pieces among some numbers, leaving out zeros.
func numbered(numbers ...Number) []Ref {
	refs := make([]Ref, 0, len(numbers)+2)
	for _, n := range numbers {
		if n != 0 {
			refs = append(refs, RefOf(n))
		}
	}
	return refs
}

// CounterOf names the counter that a newly given number advances.
func CounterOf(n Number) Ref { return GivenRef(n.Kind(), n.Station()) }
