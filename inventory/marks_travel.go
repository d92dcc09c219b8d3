package inventory

import (
	"slices"
	"time"
)

// Custody is who has a piece.
type Custody struct {
	Custody   string `json:"custody"`
	With      string `json:"with,omitempty"`
	Reference string `json:"reference,omitempty"`
	Due       When   `json:"due"`
	Decision  string `json:"decision,omitempty"` // what a maker said
}

// Ours tells whether the club has it.
func (c Custody) Ours() bool { return c.Custody == "" || c.Custody == CustodyClub }

// String is who has it in words: "with the maker (Skua Works), reference 12".
func (c Custody) String() string {
	if c.Ours() {
		return "with the club"
	}
	words := SayCustody(c.Custody)
	if c.With != "" {
		words += " (" + c.With + ")"
	}
	if c.Reference != "" {
		words += ", reference " + c.Reference
	}
	return words
}

// Suspicion is a piece that may have broken, until somebody looked.
type Suspicion struct {
	Piece  Number `json:"piece"`
	Pair   Number `json:"pair,omitempty"`
	Player Number `json:"player,omitempty"`
}

// applyTravel folds what happens to any piece on trips, in emergencies and away.
func (m *Marks) applyTravel(self Number, e *Event) bool {
	switch b := e.Body.(type) {
	case *CustodyChanged:
		m.Custodies.add(e, Custody{Custody: b.Custody, With: b.With, Reference: b.Reference, Due: b.Due})
	case *MakerAnswered:
		m.answer(e, b)
	case *Scrapped:
		m.Scraps.add(e, b.Reason)
	case *Packed:
		if b.Place != nil && !b.Out && slices.Contains(b.Pieces, self) {
			m.Places.add(e, *b.Place)
		}
	case *Emergency:
		if slices.Contains(b.Suspects, self) {
			m.Suspicions.add(e, Suspicion{self, b.Pair, b.Player})
		}
	default:
		return false
	}
	return true
}

// answer notes what a maker said of a piece that he has.
func (m *Marks) answer(e *Event, b *MakerAnswered) {
	was, _ := m.Custodies.At(e.Happened.Start)
	was.Decision, was.Due = b.Decision, b.Due
	if b.Decision == DecisionSettled {
		was.Due = When{}
	}
	m.Custodies.add(e, was)
}

// CustodyAt is who has the piece at an instant; the zero Custody is the club.
func (m *Marks) CustodyAt(at time.Time) Custody {
	custody, _ := m.Custodies.At(at)
	return custody
}

// ScrappedAt tells whether the piece was thrown away by an instant.
func (m *Marks) ScrappedAt(at time.Time) bool { return len(m.Scraps.Until(at)) > 0 }

// suspected lists suspicions that nobody has settled by an instant: by finding the piece
// sound, or by saying what broke.
func (m *Marks) suspected(at time.Time) []Damaged {
	var open []Damaged
	for _, s := range m.Suspicions.Until(at) {
		known := slices.ContainsFunc(m.Damages.Until(at), func(d Dated[Damaged]) bool { return IsSince(d.When, d.Event, s.When, s.Event) })
		if !known && !m.foundSoundSince(Dated[Damaged]{When: s.When, Event: s.Event}, at) {
			open = append(open, Damaged{Piece: s.Value.Piece, Pair: s.Value.Pair, Player: s.Value.Player, Mode: modeSuspect, Unsafe: true})
		}
	}
	return open
}

// LiftedSince is the last look since an instant that found sound what nobody was to skate
// on: until then it may have been broken.
func (m *Marks) LiftedSince(since, at time.Time) (Dated[Look], bool) {
	for _, look := range slices.Backward(m.Inspected.Until(at)) {
		if look.When.Start.Before(since) {
			break
		}
		lifts := slices.ContainsFunc(m.Suspicions.Until(at), func(s Dated[Suspicion]) bool { return IsSince(look.When, look.Event, s.When, s.Event) })
		if look.Value.Sound && lifts {
			return look, true
		}
	}
	return Dated[Look]{}, false
}

// DamagedForGood tells whether a damage that no look can close forbids use.
func (m *Marks) DamagedForGood(at time.Time) bool {
	return m.ScrappedAt(at) || slices.ContainsFunc(m.Damages.Until(at), func(d Dated[Damaged]) bool { return d.Value.Unsafe })
}

// MarksOf is what any piece carries; no marks for what is not in the record.
func MarksOf(v View, n Number) *Marks { return marksIn(v.Entity(RefOf(n))) }

func marksIn(state Entity) *Marks {
	switch state := state.(type) {
	case *Runner:
		return &state.Marks
	case *Holder:
		return &state.Marks
	case *Pair:
		return &state.Marks
	case *Set:
		return &state.Marks
	}
	return &Marks{}
}
