package standing

import (
	"slices"
	"time"

	"steeltally/inventory"
)

// PlaceOf is where a piece lies: what is on a boot where its pair lies, or where it was put
// since it went on; a set and its runners where one of them was put last. The zero Place
// is unknown.
func PlaceOf(v inventory.View, n inventory.Number, at time.Time) inventory.Place {
	together, since := lyingTogether(v, n, at), time.Time{}
	if on := PairOf(v, n, at); on != 0 && on != n {
		since = wentOn(v, n, at)
		together = append(together, on)
	}
	var last inventory.Dated[inventory.Place]
	for _, part := range together {
		places := inventory.MarksOf(v, part).Places.Until(at)
		if len(places) == 0 || part.Kind() != inventory.KindPair && places[len(places)-1].When.Start.Before(since) {
			continue
		}
		if !places[len(places)-1].When.Start.Before(last.When.Start) {
			last = places[len(places)-1]
		}
	}
	return last.Value
}

// wentOn is when a piece that is on a boot, or a runner of a set that is, went on last.
func wentOn(v inventory.View, n inventory.Number, at time.Time) time.Time {
	var last time.Time
	for _, part := range Parts(v, n, at) {
		switch thing := v.Entity(inventory.RefOf(part)).(type) {
		case *inventory.Runner:
			if moves := thing.Moves.Until(at); len(moves) > 0 && moves[len(moves)-1].When.Start.After(last) {
				last = moves[len(moves)-1].When.Start
			}
		case *inventory.Holder:
			if boots := thing.Boots.Until(at); len(boots) > 0 && boots[len(boots)-1].When.Start.After(last) {
				last = boots[len(boots)-1].When.Start
			}
		}
	}
	return last
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
		if HolderState(v, thing, at) == inventory.On {
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

// putThere tells whether a set was put at a place itself, and not its runners one by one.
func putThere(v inventory.View, set inventory.Number, name string, at time.Time) bool {
	return inventory.SameName(inventory.MarksOf(v, set).Place(at).Name, name)
}

// Inside lists the pieces that lie at a place of a name, such as in a trunk or bin; what
// is kept there as a part of something else is not counted again.
func Inside(v inventory.View, name string, at time.Time) []inventory.Number {
	var inside []inventory.Number
	counted := map[inventory.Number]bool{}
	for _, kind := range placedKinds() {
		v.Each(kind, func(n inventory.Number, _ inventory.Entity) bool {
			if !counted[n] && inventory.SameName(PlaceOf(v, n, at).Name, name) && (kind != inventory.KindSet || putThere(v, n, name, at)) {
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

// placedKinds are the kinds of what lies at places, a whole before its parts.
func placedKinds() []inventory.Kind {
	return []inventory.Kind{inventory.KindPair, inventory.KindSet, inventory.KindRunner, inventory.KindHolder}
}

// UnsafePlaces names the places at which something lies that nobody may skate on, or hangs
// on what lies there: one look at all pieces, whatever the places.
func UnsafePlaces(v inventory.View, at time.Time) []string {
	var names []string
	for _, kind := range placedKinds() {
		v.Each(kind, func(n inventory.Number, state inventory.Entity) bool {
			marked, ok := state.(interface{ DoNotSkate(time.Time) bool })
			if !ok || !marked.DoNotSkate(at) {
				return true
			}
			for _, where := range []inventory.Number{n, PairOf(v, n, at)} {
				if name := PlaceOf(v, where, at).Name; name != "" && !slices.Contains(names, name) {
					names = append(names, name)
				}
			}
			return true
		})
	}
	return names
}
