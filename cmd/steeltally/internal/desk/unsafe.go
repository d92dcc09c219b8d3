package desk

import (
	"slices"
	"time"

	"steeltally/inventory"
)

// Unsafe is the state in lists of what would be ready or in stock, but nobody may skate
// on it.
const Unsafe inventory.State = "do-not-skate"

// safely is a state that is ready or in stock only where none of some pieces is unsafe.
func safely(v inventory.View, state inventory.State, at time.Time, pieces ...inventory.Number) inventory.State {
	if state != inventory.Ready && state != inventory.InStock {
		return state
	}
	if anyUnsafe(v, at, pieces...) {
		return Unsafe
	}
	return state
}

// anyUnsafe tells whether nobody may skate on one of some pieces.
func anyUnsafe(v inventory.View, at time.Time, pieces ...inventory.Number) bool {
	return slices.ContainsFunc(pieces, func(n inventory.Number) bool { return inventory.MarksOf(v, n).DoNotSkate(at) })
}

// partsOf is a thing with what makes it up or hangs on it.
func partsOf(thing inventory.Entity, n inventory.Number, at time.Time) []inventory.Number {
	parts := []inventory.Number{n}
	switch thing := thing.(type) {
	case *inventory.Set:
		parts = append(parts, thing.Left, thing.Right)
	case *inventory.Pair:
		parts = append(parts, inventory.PiecesOn(thing, at)...)
	}
	return parts
}

// stateOfSet is a set's state for lists.
func stateOfSet(v inventory.View, set *inventory.Set, at time.Time) inventory.State {
	return safely(v, set.StateAt(at), at, set.Number, set.Left, set.Right)
}

// listedState is a thing's state for lists; empty where it has none.
func listedState(v inventory.View, thing inventory.Entity, at time.Time) inventory.State {
	switch thing := thing.(type) {
	case *inventory.Set:
		return stateOfSet(v, thing, at)
	case *inventory.Runner:
		return safely(v, thing.StateAt(at), at, thing.Number)
	case *inventory.Holder:
		return safely(v, thing.StateAt(at), at, thing.Number)
	}
	return ""
}
