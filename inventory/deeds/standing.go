package deeds

import (
	"fmt"
	"slices"

	"steeltally/inventory"
)

// checkNothingStandsOn refuses to void an event while another that stays needs it.
func checkNothingStandsOn(v inventory.View, e *inventory.Event, going []inventory.Key) error {
	switch b := e.Body.(type) {
	case *inventory.ClubNoted:
		return inventory.Refuse("what is said of the club can't be undone", "say it anew with steeltally club, or make another book with steeltally init")
	case *inventory.Correction:
		return checkNothingSince(v, e.Key, b, going)
	case *inventory.ClockDoubted:
		if slices.Contains(going, b.FirstOf(e.Key)) {
			return nil // with what it is about
		}
		return inventory.Refuse("a clock in doubt is settled by saying whether it stood right", "steeltally clock right, or steeltally clock set")
	case *inventory.Reserved:
		return inventory.Refuse("numbers that were kept for blank tags stay kept", "throw the blank tags away that you don't need; there are numbers enough")
	case *inventory.SetMade, *inventory.StockedIn, *inventory.PairNoted, *inventory.PlayerNoted, *inventory.FoundOld:
		return checkUnused(v, e, going)
	}
	return nil
}

func refuseUsed(n inventory.Number) error {
	return inventory.Refuse(n.Short()+" was used since", "undo the later entries first; steeltally history "+n.Short()+" shows them")
}

// checkStillFollows refuses to void what would leave entries about a piece that
// contradict each other where they did not before: a later one stands on what is going.
// Where two stations contradict each other, either can be voided.
func checkStillFollows(state inventory.Entity, n inventory.Number, going []inventory.Key) error {
	var before, after []string
	switch s := state.(type) {
	case *inventory.Runner:
		rest := inventory.Runner{Moves: s.Moves.Without(going)}
		before, after = inventory.Contradictions(s), inventory.Contradictions(&rest)
	case *inventory.Holder:
		rest := inventory.Holder{Boots: s.Boots.Without(going), Runners: s.Runners.Without(going)}
		before, after = inventory.Contradictions(s), inventory.Contradictions(&rest)
	case *inventory.Pair:
		rest := inventory.Pair{Left: bootWithout(&s.Left, going), Right: bootWithout(&s.Right, going)}
		before, after = inventory.Contradictions(s), inventory.Contradictions(&rest)
	}
	if len(after) > len(before) {
		return inventory.Refuse(n.Short()+" was changed since", "undo the later entry first; steeltally history "+n.Short()+" shows it")
	}
	return nil
}

func bootWithout(b *inventory.Boot, going []inventory.Key) inventory.Boot {
	return inventory.Boot{Holders: b.Holders.Without(going), Runners: b.Runners.Without(going)}
}

// checkUnused refuses to void that a thing exists once it was used.
func checkUnused(v inventory.View, e *inventory.Event, going []inventory.Key) error {
	for _, n := range inventory.NumbersOf(e) {
		state := v.Entity(inventory.RefOf(n))
		if madeOnlyBy(state, going) && slices.ContainsFunc(usesOf(v, state), func(k inventory.Key) bool { return !slices.Contains(going, k) }) {
			return refuseUsed(n)
		}
	}
	return nil
}

// madeOnlyBy tells whether a thing is in the record by events that are going, and by
// no other.
func madeOnlyBy(state inventory.Entity, going []inventory.Key) bool {
	switch s := state.(type) {
	case *inventory.Runner:
		return slices.Contains(going, s.Stock.Event)
	case *inventory.Holder:
		return slices.Contains(going, s.Stock.Event)
	case *inventory.Set:
		return slices.Contains(going, s.Event)
	case *inventory.Pair:
		return len(s.Roles) > 0 && len(s.Roles.Without(going)) == 0
	case *inventory.Player:
		return len(s.Sweaters) > 0 && len(s.Sweaters.Without(going)) == 0
	}
	return false
}

// usesOf lists the events that need a thing to be in the record.
func usesOf(v inventory.View, state inventory.Entity) []inventory.Key {
	switch s := state.(type) {
	case *inventory.Runner:
		return slices.Concat(keysOf(s.Moves), keysOf(s.Works), keysOf(s.Readings), keysOfMarks(&s.Marks))
	case *inventory.Holder:
		return slices.Concat(keysOf(s.Boots), keysOf(s.Runners), keysOfMarks(&s.Marks))
	case *inventory.Set:
		return slices.Concat(keysOf(s.Uses), keysOf(s.Works), keysOf(s.Gave), keysOfMarks(&s.Marks))
	case *inventory.Pair:
		return slices.Concat(keysOfBoot(&s.Left), keysOfBoot(&s.Right), keysOfMarks(&s.Marks))
	case *inventory.Player:
		return slices.Concat(keysOf(s.Specs), keysOf(s.Grinds), keysOf(s.Used), belongings(v, s))
	}
	return nil
}

// belongings lists the events that gave a player pairs and sets.
func belongings(v inventory.View, p *inventory.Player) []inventory.Key {
	var keys []inventory.Key
	for _, n := range p.Pairs {
		if pair, ok := v.Entity(inventory.RefOf(n)).(*inventory.Pair); ok {
			keys = append(keys, keysOf(pair.Roles)...)
		}
	}
	for _, lettered := range p.Sets {
		if set, ok := v.Entity(inventory.RefOf(lettered.Set)).(*inventory.Set); ok {
			keys = append(keys, set.Event)
		}
	}
	return keys
}

func keysOfBoot(b *inventory.Boot) []inventory.Key {
	return append(keysOf(b.Holders), keysOf(b.Runners)...)
}

// keysOfMarks lists what was found and looked at; a place is no use.
func keysOfMarks(m *inventory.Marks) []inventory.Key {
	return append(keysOf(m.Damages), keysOf(m.Inspected)...)
}

func keysOf[T any](line inventory.Timeline[T]) []inventory.Key {
	keys := make([]inventory.Key, len(line))
	for i, entry := range line {
		keys[i] = entry.Event
	}
	return keys
}

// checkNothingSince refuses to bring back what a correction voided where the record
// went on without it: what it was about is not there any more, or was moved by this
// writer since. What another station did meanwhile is flagged.
func checkNothingSince(v inventory.View, correction inventory.Key, b *inventory.Correction, going []inventory.Key) error {
	const hint = "enter what was taken back anew"
	if b.Revives {
		return inventory.Refuse(fmt.Sprintf("entry %s brought entries back", correction), "undo the entries themselves")
	}
	if len(b.Voids) == 0 {
		return nil
	}
	for _, n := range b.About {
		state := v.Entity(inventory.RefOf(n))
		if !inventory.IsEntered(state) && !slices.Contains(b.Unmakes, n) {
			return inventory.Refuse(n.Short()+" was taken out of the record since", hint)
		}
		if !b.Moves {
			continue
		}
		for _, k := range movesOf(state) {
			if k.Writer == correction.Writer && k.Sequence > correction.Sequence && !slices.Contains(going, k) {
				return inventory.Refuse(n.Short()+" was changed since", hint)
			}
		}
	}
	return nil
}

// movesOf lists the events that said where a piece is, and that took that back.
func movesOf(state inventory.Entity) []inventory.Key {
	switch s := state.(type) {
	case *inventory.Runner:
		return append(keysOf(s.Moves), s.Unmoved...)
	case *inventory.Holder:
		return slices.Concat(keysOf(s.Boots), keysOf(s.Runners), s.Unmoved)
	case *inventory.Pair:
		return slices.Concat(keysOfBoot(&s.Left), keysOfBoot(&s.Right), s.Unmoved)
	}
	return nil
}
