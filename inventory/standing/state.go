package standing

import (
	"time"

	"steeltally/inventory"
)

// The states beside those of package inventory.
const (
	// Unsafe is what would be ready or in stock, but nobody may skate on it.
	Unsafe inventory.State = "do-not-skate"
	// Unsure is what the record puts on a boot that, by a later entry, has something else on.
	Unsure inventory.State = "unsure"
)

// StateOf is where a runner, a holder or a set is in its life; empty for all else, and where
// its entry was taken back. What would be ready or in stock is neither where nobody may skate on it.
func StateOf(v inventory.View, n inventory.Number, at time.Time) inventory.State {
	var state inventory.State
	thing := v.Entity(inventory.RefOf(n))
	if !inventory.IsEntered(thing) {
		return ""
	}
	switch thing := thing.(type) {
	case *inventory.Runner:
		state = RunnerState(v, thing, at)
	case *inventory.Holder:
		state = HolderState(v, thing, at)
	case *inventory.Set:
		state = SetState(v, thing, at)
	}
	if (state == inventory.Ready || state == inventory.InStock) && SafetyOf(v, n, at) != Sound {
		return Unsafe
	}
	return state
}

// RunnerState is where a runner is in its life, safe or not.
func RunnerState(v inventory.View, r *inventory.Runner, at time.Time) inventory.State {
	state := r.StateAt(at)
	if state != inventory.On {
		return state
	}
	held := r.HeldAt(at)
	if pair, err := inventory.FindPair(v, held.Pair); err == nil && pair.SeatAt(held.Side, at).Runner != r.Number {
		return Unsure
	}
	return state
}

// Held tells whether a runner is in a holder, as far as the record can tell.
func Held(v inventory.View, r *inventory.Runner, at time.Time) bool {
	switch RunnerState(v, r, at) {
	case inventory.On, inventory.InHolder, Unsure:
		return true
	}
	return false
}

// HolderState is where a holder is in its life, safe or not.
func HolderState(v inventory.View, h *inventory.Holder, at time.Time) inventory.State {
	state := h.StateAt(at)
	if state != inventory.On {
		return state
	}
	boot := h.BootAt(at)
	if pair, err := inventory.FindPair(v, boot.Pair); err == nil && pair.HolderAt(boot.Side, at) != h.Number {
		return Unsure
	}
	return state
}

// SetState is where a set is in its life, safe or not: on while one of its runners is, done
// with when one of them is, or when one went into another set.
func SetState(v inventory.View, s *inventory.Set, at time.Time) inventory.State {
	left, _ := inventory.FindRunner(v, s.Left)
	right, _ := inventory.FindRunner(v, s.Right)
	return setState(v, s.Number, left, right, at)
}

// setState is a set's state by those of its runners; one that is not in the record is nil.
func setState(v inventory.View, set inventory.Number, left, right *inventory.Runner, at time.Time) inventory.State {
	state := inventory.Ready
	for _, r := range []*inventory.Runner{left, right} {
		switch of := inSet(v, set, r, at); {
		case of == inventory.On:
			return of
		case state != inventory.Removed && of != inventory.Ready:
			state = of
		}
	}
	return state
}

// inSet is the state of a runner for its set.
func inSet(v inventory.View, set inventory.Number, r *inventory.Runner, at time.Time) inventory.State {
	if r == nil || r.SetAt(at) != set {
		return inventory.Removed
	}
	if state := RunnerState(v, r, at); state != inventory.InStock {
		return state
	}
	return inventory.Ready
}
