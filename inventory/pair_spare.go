package inventory

import (
	"time"

	"steeltally/geometry"
)

// Try is a player's word on a pair of his.
type Try struct {
	Declined bool   `json:"declined,omitempty"`
	Note     string `json:"note,omitempty"`
}

// PairTravel is what a pair carries that is not its player's first.
type PairTravel struct {
	Tries   Timeline[Try]                 `json:"tries,omitempty"`
	Skates  Timeline[Number]              `json:"skated,omitempty"` // sets that were skated on
	Pitches Timeline[geometry.Millimetre] `json:"pitches,omitempty"`
}

// apply folds one event; it tells whether it was of that sort.
func (p *PairTravel) apply(e *Event) bool {
	switch b := e.Body.(type) {
	case *Tried:
		p.Tries.add(e, Try{b.Declined, b.Note})
	case *Skated:
		p.Skates.add(e, b.Set)
	case *Pitched:
		p.Pitches.add(e, b.Pitch)
	default:
		return false
	}
	return true
}

// TriedAt is the last word of the player on the pair by an instant.
func (p *PairTravel) TriedAt(at time.Time) (Dated[Try], bool) { return latestEntry(p.Tries.Until(at)) }

// SkatedAt is when the pair was last skated on by an instant, as far as it was said.
func (p *PairTravel) SkatedAt(at time.Time) (Dated[Number], bool) {
	return latestEntry(p.Skates.Until(at))
}

// PitchAt is the pitch that was last noted of the pair by an instant.
func (p *PairTravel) PitchAt(at time.Time) (Dated[geometry.Millimetre], bool) {
	return latestEntry(p.Pitches.Until(at))
}

// latestEntry is the last entry of a line.
func latestEntry[T any](line Timeline[T]) (last Dated[T], ok bool) {
	if len(line) == 0 {
		return last, false
	}
	return line[len(line)-1], true
}
