package inventory

import "slices"

// Ledger keeps a record in memory and folds it anew when asked. It is the plain
// model that every engine has to agree with.
type Ledger struct {
	events []*Event
	states map[Ref]Entity
}

// Add takes over events; one whose key is there already is left out.
func (l *Ledger) Add(events ...Event) {
	known := make(map[Key]bool, len(l.events))
	for _, e := range l.events {
		known[e.Key] = true
	}
	for _, e := range events {
		if !known[e.Key] {
			known[e.Key] = true
			l.events = append(l.events, &e)
		}
	}
	l.Refold()
}

// Refold comes to the state of all events from nothing.
func (l *Ledger) Refold() {
	slices.SortFunc(l.events, CompareOrder)
	voided := Voided(l.events)
	var sets ClockSets
	for _, e := range l.events {
		if set, ok := e.Body.(*ClockSet); ok && voided[e.Key] == (Key{}) {
			sets.Add(set)
		}
	}
	l.states = map[Ref]Entity{}
	for _, e := range l.events {
		if _, isVoid := voided[e.Key]; isVoid {
			continue
		}
		for _, ref := range TouchedOnce(e) {
			l.apply(ref, sets.Timed(e))
		}
	}
}

func (l *Ledger) apply(ref Ref, e *Event) {
	state, ok := l.states[ref]
	if !ok {
		state = NewEntity(ref)
	}
	if state == nil {
		return
	}
	state.Apply(e)
	l.states[ref] = state
}

// Entity is the state of a thing, or nil.
func (l *Ledger) Entity(ref Ref) Entity {
	if state, ok := l.states[ref]; ok {
		return state
	}
	return nil
}

// Writer is whose record this is; a ledger in memory is nobody's.
func (l *Ledger) Writer() Writer { return "" }

// Each yields the pieces of a kind in order of number.
func (l *Ledger) Each(kind Kind, yield func(Number, Entity) bool) {
	var numbers []Number
	for ref := range l.states {
		if n := ref.Number(); n != 0 && n.Kind() == kind {
			numbers = append(numbers, n)
		}
	}
	slices.Sort(numbers)
	for _, n := range numbers {
		if !yield(n, l.states[RefOf(n)]) {
			return
		}
	}
}

// Events are the events in fold order; the caller does not change them.
func (l *Ledger) Events() []*Event { return l.events }

// Voided tells for events in fold order which ones are void, and by what.
func Voided(events []*Event) map[Key]Key {
	at := make(map[Key]int, len(events))
	for i, e := range events {
		at[e.Key] = i
	}
	voided := map[Key]Key{}
	for i, e := range slices.Backward(events) {
		if _, isVoid := voided[e.Key]; isVoid {
			continue
		}
		for _, target := range Voids(e) {
			if j, known := at[target]; known && j < i {
				voided[target] = e.Key
			}
		}
	}
	return voided
}

// TouchedOnce names every thing that an event touches, each once, in order.
func TouchedOnce(e *Event) []Ref {
	refs := slices.Clone(e.Body.Touches())
	slices.Sort(refs)
	return slices.DeleteFunc(slices.Compact(refs), func(r Ref) bool { return !r.isName() })
}

// NumbersOf lists the numbers of what an event touches.
func NumbersOf(e *Event) []Number {
	var numbers []Number
	for _, ref := range e.Body.Touches() {
		if n := ref.Number(); n != 0 {
			numbers = append(numbers, n)
		}
	}
	return numbers
}

// States are all states, by name.
func (l *Ledger) States() map[Ref]Entity { return l.states }
