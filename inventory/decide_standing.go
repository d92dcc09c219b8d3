package inventory

import "slices"

// checkNothingStandsOn refuses to void an event while another that stays needs it.
func checkNothingStandsOn(v View, e *Event, going []Key) error {
	switch b := e.Body.(type) {
	case *ClubNoted:
		return refuse("make another book: steeltally init", "what is said of the club can't be undone")
	case *Correction:
		return checkNothingSince(v, e.Key, b, going)
	case *Reserved:
		return refuse("throw the blank tags away that you don't need; there are numbers enough", "numbers that were kept for blank tags stay kept")
	case *SetMade, *StockedIn, *PairNoted, *PlayerNoted, *FoundOld:
		return checkUnused(v, e, going)
	}
	return nil
}

func refuseUsed(n Number) error {
	return refuse("undo the later entries first; steeltally history "+n.Short()+" shows them", "%s was used since", n.Short())
}

// checkStillFollows refuses to void what would leave entries about a piece that
// contradict each other where they did not before: a later one stands on what is going.
// Where two stations contradict each other, either can be voided.
func checkStillFollows(state Entity, n Number, going []Key) error {
	var before, after []clash
	switch s := state.(type) {
	case *Runner:
		rest := Runner{Moves: s.Moves.without(going)}
		before, after = s.clashes(), rest.clashes()
	case *Holder:
		rest := Holder{Boots: s.Boots.without(going), Runners: s.Runners.without(going)}
		before, after = s.clashes(), rest.clashes()
	case *Pair:
		rest := Pair{Left: s.Left.without(going), Right: s.Right.without(going)}
		before, after = s.clashes(), rest.clashes()
	}
	if len(after) > len(before) {
		return refuse("undo the later entry first; steeltally history "+n.Short()+" shows it", "%s was changed since", n.Short())
	}
	return nil
}

func (b *Boot) without(going []Key) Boot {
	return Boot{Holders: b.Holders.without(going), Runners: b.Runners.without(going)}
}

// checkUnused refuses to void that a thing exists once it was used.
func checkUnused(v View, e *Event, going []Key) error {
	for _, n := range numbersOf(e) {
		state := v.Entity(RefOf(n))
		if madeOnlyBy(state, going) && slices.ContainsFunc(usesOf(v, state), func(k Key) bool { return !slices.Contains(going, k) }) {
			return refuseUsed(n)
		}
	}
	return nil
}

// madeOnlyBy tells whether a thing is in the record by events that are going, and by
// no other.
func madeOnlyBy(state Entity, going []Key) bool {
	switch s := state.(type) {
	case *Runner:
		return slices.Contains(going, s.Stock.Event)
	case *Holder:
		return slices.Contains(going, s.Stock.Event)
	case *Set:
		return slices.Contains(going, s.Event)
	case *Pair:
		return len(s.Roles) > 0 && len(s.Roles.without(going)) == 0
	case *Player:
		return len(s.Sweaters) > 0 && len(s.Sweaters.without(going)) == 0
	}
	return false
}

// usesOf lists the events that need a thing to be in the record.
func usesOf(v View, state Entity) []Key {
	switch s := state.(type) {
	case *Runner:
		return slices.Concat(keysOf(s.Moves), keysOf(s.Works), keysOf(s.Readings), s.Marks.keys())
	case *Holder:
		return slices.Concat(keysOf(s.Boots), keysOf(s.Runners), s.Marks.keys())
	case *Set:
		return slices.Concat(keysOf(s.Uses), keysOf(s.Works), keysOf(s.Gave), s.Marks.keys())
	case *Pair:
		return slices.Concat(s.Left.keys(), s.Right.keys(), s.Marks.keys())
	case *Player:
		return slices.Concat(keysOf(s.Specs), keysOf(s.Grinds), keysOf(s.Used), belongings(v, s))
	}
	return nil
}

// belongings lists the events that gave a player pairs and sets.
func belongings(v View, p *Player) []Key {
	var keys []Key
	for _, n := range p.Pairs {
		if pair, ok := v.Entity(RefOf(n)).(*Pair); ok {
			keys = append(keys, keysOf(pair.Roles)...)
		}
	}
	for _, lettered := range p.Sets {
		if set, ok := v.Entity(RefOf(lettered.Set)).(*Set); ok {
			keys = append(keys, set.Event)
		}
	}
	return keys
}

func (b *Boot) keys() []Key { return append(keysOf(b.Holders), keysOf(b.Runners)...) }

// keys lists what was found and looked at; a place is no use.
func (m *Marks) keys() []Key { return append(keysOf(m.Damages), keysOf(m.Inspected)...) }

func keysOf[T any](line Timeline[T]) []Key {
	keys := make([]Key, len(line))
	for i, entry := range line {
		keys[i] = entry.Event
	}
	return keys
}

// checkNothingSince refuses to bring back what a correction voided where the record
// went on without it: what it was about is not there any more, or was moved by this
// writer since. What another station did meanwhile is flagged.
func checkNothingSince(v View, correction Key, b *Correction, going []Key) error {
	const hint = "enter what was taken back anew"
	if b.Revives {
		return refuse("undo the entries themselves", "entry %s brought entries back", correction)
	}
	if len(b.Voids) == 0 {
		return nil
	}
	for _, n := range b.About {
		state := v.Entity(RefOf(n))
		if !entered(state) && !slices.Contains(b.Unmakes, n) {
			return refuse(hint, "%s was taken out of the record since", n.Short())
		}
		if !b.Moves {
			continue
		}
		for _, k := range movesOf(state) {
			if k.Writer == correction.Writer && k.Sequence > correction.Sequence && !slices.Contains(going, k) {
				return refuse(hint, "%s was changed since", n.Short())
			}
		}
	}
	return nil
}

// movesOf lists the events that said where a piece is, and that took that back.
func movesOf(state Entity) []Key {
	switch s := state.(type) {
	case *Runner:
		return append(keysOf(s.Moves), s.Unmoved...)
	case *Holder:
		return slices.Concat(keysOf(s.Boots), keysOf(s.Runners), s.Unmoved)
	case *Pair:
		return slices.Concat(s.Left.keys(), s.Right.keys(), s.Unmoved)
	}
	return nil
}
