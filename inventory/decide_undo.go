package inventory

import (
	"slices"
)

// Undo voids events, in words; the voided lines stay visible.
type Undo struct {
	Events []Event
	Words  string
}

// Decide refuses to take away what something later stands on.
func (d Undo) Decide(v View, m Moment) (Outcome, error) {
	var out Outcome
	if len(d.Events) == 0 {
		return out, refuse("steeltally history shows what is recorded", "there is nothing to undo")
	}
	correction, err := voiding(v, d.Events, d.Words)
	if err != nil {
		return out, err
	}
	out.record(m.Happened, correction)
	return out, nil
}

// voiding is the correction that voids events, once nothing stands on them.
func voiding(v View, events []Event, words string) (*Correction, error) {
	correction := &Correction{Words: words}
	for _, e := range events {
		correction.Voids = append(correction.Voids, e.Key)
		correction.About = append(correction.About, numbersOf(&e)...)
	}
	for i := range events {
		if err := checkNothingStandsOn(v, &events[i], correction.Voids); err != nil {
			return nil, err
		}
	}
	slices.Sort(correction.About)
	correction.About = slices.Compact(correction.About)
	return correction, nil
}

func numbersOf(e *Event) []Number {
	var numbers []Number
	for _, ref := range e.Body.Touches() {
		if n := ref.Number(); n != 0 {
			numbers = append(numbers, n)
		}
	}
	return numbers
}

// checkNothingStandsOn refuses to void an event while a later one needs it.
func checkNothingStandsOn(v View, e *Event, going []Key) error {
	switch b := e.Body.(type) {
	case *ClubNoted:
		return refuse("make another book: steeltally init", "the first entry of a book can't be undone")
	case *PutIn:
		return checkSeats(v, b.Pair, sidesOf(b.Left != nil, b.Right != nil), going)
	case *TakenOut:
		return checkSeats(v, b.Pair, sidesOf(b.Left != nil, b.Right != nil), going)
	case *Riveted:
		return checkSeats(v, b.Pair, []Side{b.Side}, going)
	case *SetMade, *StockedIn, *PairNoted, *PlayerNoted:
		return checkUnused(v, e, going)
	}
	return nil
}

func sidesOf(left, right bool) []Side {
	var sides []Side
	if left {
		sides = append(sides, Left)
	}
	if right {
		sides = append(sides, Right)
	}
	return sides
}

// checkSeats refuses where a boot was changed after what is going.
func checkSeats(v View, n Number, sides []Side, going []Key) error {
	pair, ok := v.Entity(RefOf(n)).(*Pair)
	if !ok {
		return nil
	}
	for _, side := range sides {
		boot := pair.Boot(side)
		if standsLater(boot.Runners, going) || standsLater(boot.Holders, going) {
			return refuse("undo the later change first; steeltally history "+n.Short()+" shows it", "the %s boot of %s was changed since", side, n.Short())
		}
	}
	return nil
}

// standsLater tells whether an entry that stays lies behind one that is going.
func standsLater[T any](line Timeline[T], going []Key) bool {
	leaves := false
	for _, entry := range line {
		isGoing := slices.Contains(going, entry.Event)
		if leaves && !isGoing {
			return true
		}
		leaves = leaves || isGoing
	}
	return false
}

// checkUnused refuses to void that a thing exists once it was used.
func checkUnused(v View, e *Event, going []Key) error {
	for _, n := range numbersOf(e) {
		if used := usesOf(v.Entity(RefOf(n)), e); slices.ContainsFunc(used, func(k Key) bool { return !slices.Contains(going, k) }) {
			return refuse("undo the later entries first; steeltally history "+n.Short()+" shows them", "%s was used since", n.Short())
		}
	}
	return nil
}

// usesOf lists the events that need what e made, for the thing that e made.
func usesOf(state Entity, e *Event) []Key {
	switch s := state.(type) {
	case *Runner:
		if s.Stock.Event == e.Key {
			return append(keysOf(s.Moves), keysOf(s.Works)...)
		}
	case *Holder:
		if s.Stock.Event == e.Key {
			return append(keysOf(s.Boots), keysOf(s.Runners)...)
		}
	case *Set:
		if b, ok := e.Body.(*SetMade); ok && b.Set == s.Number {
			return append(keysOf(s.Uses), keysOf(s.Works)...)
		}
	case *Pair:
		if len(s.Roles) == 1 && s.Roles[0].Event == e.Key {
			return append(keysOf(s.Left.Holders), keysOf(s.Right.Holders)...)
		}
	case *Player:
		if len(s.Sweaters) == 1 && s.Sweaters[0].Event == e.Key {
			return append(keysOf(s.Specs), keysOf(s.Grinds)...)
		}
	}
	return nil
}

func keysOf[T any](line Timeline[T]) []Key {
	keys := make([]Key, len(line))
	for i, entry := range line {
		keys[i] = entry.Event
	}
	return keys
}

// KeepAll says of events that look like a conflict that all of them are right.
type KeepAll struct {
	Events []Event
	Words  string
}

// Decide settles the conflict without voiding anything.
func (d KeepAll) Decide(_ View, m Moment) (Outcome, error) {
	var out Outcome
	if len(d.Events) < 2 {
		return out, badValue("steeltally history shows the numbers of the entries", "name the entries that are both right")
	}
	correction := &Correction{Words: d.Words}
	for i := range d.Events {
		correction.Keeps = append(correction.Keeps, d.Events[i].Key)
		correction.About = append(correction.About, numbersOf(&d.Events[i])...)
	}
	slices.Sort(correction.About)
	correction.About = slices.Compact(correction.About)
	out.record(m.Happened, correction)
	return out, nil
}
