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

func (b *Tried) line(t Teller, _ *Event) string {
	line := "tried " + t.pair(b.Pair)
	if b.Declined {
		line += ", would rather not"
	}
	return withNote(line, b.Note)
}

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

func (b *Skated) line(t Teller, _ *Event) string {
	what := "a practice on "
	if b.Game {
		what = "a game on "
	}
	return what + t.pair(b.Pair) + ", " + t.set(b.Set)
}

// Pitched says how a pair's holders are pitched, heel minus toe.
type Pitched struct {
	Pair  Number              `json:"pair"`
	Pitch geometry.Millimetre `json:"pitch_mm"`
}

// Kind is the word in the record.
func (*Pitched) Kind() string { return "pitch" }

// Touches names the pair.
func (b *Pitched) Touches() []Ref { return numbered(b.Pair) }

func (b *Pitched) line(Teller, *Event) string {
	return "pair " + b.Pair.Short() + ": " + SayPitch(b.Pitch)
}

// Try is a player's word on a pair of his.
type Try struct {
	Declined bool   `json:"declined,omitempty"`
	Note     string `json:"note,omitempty"`
}

// SayPitch is a pitch (heel minus toe) in words and in mm: "forward 1.50 mm". A higher
// heel leans the skater forward.
func SayPitch(pitch geometry.Millimetre) string {
	switch {
	case pitch > 0:
		return "pitch forward " + pitch.String()
	case pitch < 0:
		return "pitch back " + (-pitch).String()
	}
	return fmt.Sprintf("pitch neutral %s", pitch)
}

// TriedAt is the last word of the player on the pair by an instant.
func (p *Pair) TriedAt(at time.Time) (Dated[Try], bool) { return latestEntry(p.Tries.Until(at)) }

// SkatedAt is when the pair was last skated on by an instant, as far as it was said.
func (p *Pair) SkatedAt(at time.Time) (Dated[Number], bool) {
	return latestEntry(p.Skates.Until(at))
}

// PitchAt is the pitch that was last noted of the pair by an instant.
func (p *Pair) PitchAt(at time.Time) (Dated[geometry.Millimetre], bool) {
	return latestEntry(p.Pitches.Until(at))
}
