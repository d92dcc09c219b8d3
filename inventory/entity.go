package inventory

import "strings"

// FoldVersion changes whenever Apply comes to another state from the same events, so
// that a book knows that its stored states are old.
const FoldVersion = 14

// Entity is the folded state of one thing. It marshals to JSON and back without loss.
type Entity interface {
	// Apply folds one event that touches the thing. Events come in fold order,
	// voided ones left out. Apply is total: what contradicts is kept and flagged.
	Apply(e *Event)
}

// NewEntity is the state of a thing before its first event, or nil for a ref that
// this version has no state for.
func NewEntity(ref Ref) Entity {
	switch text := string(ref); {
	case ref == ClubRef:
		return &Club{}
	case ref == RosterRef:
		return &Roster{}
	case ref == ClocksRef:
		return &Clocks{}
	case strings.HasPrefix(text, modelPrefix):
		return &Model{}
	case strings.HasPrefix(text, schedulePrefix):
		return &Schedule{}
	case strings.HasPrefix(text, givenPrefix):
		return &Given{Ref: ref}
	}
	if state := newEntityOfTravel(ref); state != nil {
		return state
	}
	switch n := ref.Number(); n.Kind() {
	case KindRunner:
		return &Runner{Number: n}
	case KindHolder:
		return &Holder{Number: n}
	case KindPair:
		return &Pair{Number: n}
	case KindSet:
		return &Set{Number: n}
	case KindPlayer:
		return &Player{Number: n}
	case KindTrunk, KindBin:
		return &Container{Number: n}
	}
	return nil
}

// View is the state of the record that a decision or a question looks at. The
// entities it gives are the caller's to read, not to change.
type View interface {
	// Entity is the state of a thing, or nil where nothing is recorded of it.
	Entity(ref Ref) Entity
	// Each calls yield with every recorded piece of a kind, in order of number,
	// until yield says false.
	Each(kind Kind, yield func(Number, Entity) bool)
	// Writer is whose record this is: what is decided will be written by it.
	Writer() Writer
}

// Voids lists the events that e voids. A correction counts only where it comes
// after what it voids in fold order, and while nothing voids the correction.
func Voids(e *Event) []Key {
	if correction, ok := e.Body.(*Correction); ok {
		return correction.Voids
	}
	return nil
}
