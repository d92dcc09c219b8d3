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
	case ref == RulesRef:
		return &Rules{}
	case ref == AwayRef:
		return &Away{}
	case ref == TripsRef:
		return &Trips{}
	case ref == KitsRef:
		return &Kits{}
	case strings.HasPrefix(text, tripPrefix):
		return &Trip{}
	case strings.HasPrefix(text, shelfPrefix):
		return &Shelf{}
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

// IsEntered tells whether a state is that of a thing in the record. An entity can have a
// state although nothing that stands brought it there: its stock-in was taken back, or only
// a newer program's entry names it. What is not entered can't be used.
func IsEntered(state Entity) bool {
	thing, ok := state.(interface{ Entered() bool })
	return ok && thing.Entered()
}

// StateEntered tells whether a number is that of a thing in the record.
func StateEntered(v View, n Number) bool { return IsEntered(v.Entity(RefOf(n))) }

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

// MarksOf is what any piece carries; no marks for what is not in the record.
func MarksOf(v View, n Number) *Marks { return marksIn(v.Entity(RefOf(n))) }
