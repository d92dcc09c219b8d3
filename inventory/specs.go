package inventory

import (
	"fmt"
	"strings"
	"time"

	"steeltally/geometry"
)

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

func (b *SpecsNoted) line(Teller, *Event) string {
	return "specs: " + (&Specs{b.Hollow, b.Profile, b.Pitch, b.Passes, b.ChangeHeight}).String()
}

// Specs are how a player's steel shall be. What is nil or empty was never said.
type Specs struct {
	Hollow       *Cut                 `json:"hollow,omitempty"`
	Profile      Profile              `json:"profile_mm,omitempty"`
	Pitch        *geometry.Millimetre `json:"pitch_mm,omitempty"`
	Passes       *int                 `json:"passes,omitempty"`
	ChangeHeight *geometry.Millimetre `json:"change_height_mm,omitempty"`
}

// take takes over what newer specs say.
func (s *Specs) take(newer Specs) {
	s.Hollow = newerOf(s.Hollow, newer.Hollow)
	s.Pitch = newerOf(s.Pitch, newer.Pitch)
	s.Passes = newerOf(s.Passes, newer.Passes)
	s.ChangeHeight = newerOf(s.ChangeHeight, newer.ChangeHeight)
	if len(newer.Profile) > 0 {
		s.Profile = newer.Profile
	}
}

// String is the specs in one line; what was never said is left out.
func (s *Specs) String() string {
	var parts []string
	if s.Hollow != nil {
		parts = append(parts, s.Hollow.String())
	}
	if s.Profile != nil {
		parts = append(parts, s.Profile.String())
	}
	if s.Pitch != nil {
		parts = append(parts, SayPitch(*s.Pitch))
	}
	if s.Passes != nil {
		parts = append(parts, fmt.Sprintf("%d passes", *s.Passes))
	}
	if s.ChangeHeight != nil {
		parts = append(parts, "change at "+s.ChangeHeight.String())
	}
	if len(parts) == 0 {
		return "no specs yet"
	}
	return strings.Join(parts, ", ")
}

// SpecsAt are the specs that hold at an instant: the latest word on each.
func (p *Player) SpecsAt(at time.Time) Specs {
	var now Specs
	for _, entry := range p.Specs.Until(at) {
		now.take(entry.Value)
	}
	return now
}

func newerOf[T any](old, newer *T) *T {
	if newer != nil {
		return newer
	}
	return old
}
