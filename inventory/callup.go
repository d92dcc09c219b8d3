package inventory

import (
	"fmt"
	"strings"
	"time"

	"steeltally/geometry"
)

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

func (b *CalledUp) line(t Teller, _ *Event) string {
	line := "called up " + t.player(b.Player)
	if b.Family != "" {
		line += ", holders " + b.Family
	}
	for side, size := range b.Sizes.Each {
		line += fmt.Sprintf(", %s %d", side, *size)
	}
	if len(b.Ask) > 0 {
		line += ", to be asked: " + strings.Join(b.Ask, ", ")
	}
	return clipName(line)
}

// CalledUpAt is what was last said of the player when he was called up.
func (p *Player) CalledUpAt(at time.Time) (Dated[CalledUp], bool) {
	return latestEntry(p.Calls.Until(at))
}
