package standing

import (
	"time"

	"steeltally/inventory"
)

// PlaceOf is where a piece lies: what is on a boot where its pair lies, a set and its
// runners where one of them was put last. The zero Place is unknown.
func PlaceOf(v inventory.View, n inventory.Number, at time.Time) inventory.Place {
	if on := PairOf(v, n, at); on != 0 && on != n {
		n = on
	}
	var last inventory.Dated[inventory.Place]
	for _, part := range lyingTogether(v, n, at) {
		places := inventory.MarksOf(v, part).Places.Until(at)
		if len(places) > 0 && !places[len(places)-1].When.Start.Before(last.When.Start) {
			last = places[len(places)-1]
		}
	}
	return last.Value
}

// lyingTogether lists what is kept in one place: a set with its runners, which are in no
// other set by now.
func lyingTogether(v inventory.View, n inventory.Number, at time.Time) []inventory.Number {
	set := n
	if runner, err := inventory.FindRunner(v, n); err == nil {
		set = runner.SetAt(at)
	}
	together := []inventory.Number{n}
	state, ok := v.Entity(inventory.RefOf(set)).(*inventory.Set)
	if !ok {
		return together
	}
	for _, part := range []inventory.Number{set, state.Left, state.Right} {
		runner, err := inventory.FindRunner(v, part)
		if part != n && (part == set || err == nil && runner.SetAt(at) == set) {
			together = append(together, part)
		}
	}
	return together
}

// PairOf is the pair that a piece is or hangs on, or zero.
func PairOf(v inventory.View, n inventory.Number, at time.Time) inventory.Number {
	switch thing := v.Entity(inventory.RefOf(n)).(type) {
	case *inventory.Runner:
		if RunnerState(v, thing, at) == inventory.On {
			return thing.HeldAt(at).Pair
		}
	case *inventory.Holder:
		if holderState(v, thing, at) == inventory.On {
			return thing.BootAt(at).Pair
		}
	case *inventory.Set:
		for _, side := range inventory.Sides() {
			runner, err := inventory.FindRunner(v, thing.Runner(side))
			if err == nil && runner.SetAt(at) == n && RunnerState(v, runner, at) == inventory.On {
				return runner.HeldAt(at).Pair
			}
		}
	case *inventory.Pair:
		return n
	}
	return 0
}

// Inside lists the pieces that lie at a place of a name, such as in a trunk or bin; what
// is kept there as a part of something else is not counted again.
func Inside(v inventory.View, name string, at time.Time) []inventory.Number {
	var inside []inventory.Number
	counted := map[inventory.Number]bool{}
	for _, kind := range []inventory.Kind{inventory.KindPair, inventory.KindSet, inventory.KindRunner, inventory.KindHolder} {
		v.Each(kind, func(n inventory.Number, _ inventory.Entity) bool {
			if !counted[n] && inventory.SameName(PlaceOf(v, n, at).Name, name) {
				inside = append(inside, n)
				for _, part := range Parts(v, n, at) {
					counted[part] = true
				}
			}
			return true
		})
	}
	return inside
}
