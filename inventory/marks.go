package inventory

import "slices"

// Marks is what any piece can carry: where it lies, what is wrong with it, when it
// was looked at, and what the record itself is unsure of.
type Marks struct {
	Places    Timeline[Place]   `json:"places,omitempty"`
	Damages   Timeline[Damaged] `json:"damages,omitempty"`
	Inspected Timeline[Look]    `json:"inspected,omitempty"`
	Foreign   []Key             `json:"foreign,omitempty"` // events that this version can't read, or not wholly
	Settled   []Key             `json:"settled,omitempty"` // events that a correction says are right
	Unmoved   []Key             `json:"unmoved,omitempty"` // corrections that took moves of steel back
	Prints    []Print           `json:"prints,omitempty"`  // tags that came out

	Custodies  Timeline[Custody]   `json:"custodies,omitempty"` // who has it; none: the club
	Scraps     Timeline[string]    `json:"scrapped,omitempty"`
	Suspicions Timeline[Suspicion] `json:"suspicions,omitempty"`
}

// notice notes an event of which a newer program said more than this version reads.
func (m *Marks) notice(e *Event) {
	if e.Newer() {
		m.Foreign = append(m.Foreign, e.Key)
	}
}

// apply folds what any piece can carry; it tells whether the event was of that sort.
func (m *Marks) apply(self Number, e *Event) bool {
	switch b := e.Body.(type) {
	case *Placed:
		m.Places.add(e, b.Place)
	case *Damaged:
		if b.Piece == self {
			m.Damages.add(e, *b)
		}
	case *Inspected:
		m.Inspected.add(e, Look{b.Sound, b.Note, e.Who})
	case *Printed:
		m.print(self, e, b)
	case *Correction:
		m.Settled = append(m.Settled, b.Keeps...)
		if b.Moves {
			m.Unmoved = append(m.Unmoved, e.Key)
		}
	case *Foreign:
		m.Foreign = append(m.Foreign, e.Key)
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

func (m *Marks) settled(a, b Key) bool {
	return (a == Key{} || slices.Contains(m.Settled, a)) && slices.Contains(m.Settled, b)
}
