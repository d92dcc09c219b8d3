package standing

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"steeltally/inventory"
)

// PlaceOf is where a piece lies; a set whose runners lie apart lies at both places. The zero
// Place is unknown.
func PlaceOf(v inventory.View, n inventory.Number, at time.Time) inventory.Place {
	set, ok := v.Entity(inventory.RefOf(n)).(*inventory.Set)
	if !ok {
		return liesAt(v, n, at)
	}
	var places []inventory.Place
	var said []string
	for _, side := range inventory.Sides() {
		runner, err := inventory.FindRunner(v, set.Runner(side))
		if err != nil || runner.SetAt(at) != n {
			continue
		}
		place := liesAt(v, runner.Number, at)
		if !slices.Contains(places, place) {
			places = append(places, place)
		}
		said = append(said, cmp.Or(place.String(), "not known")+" ("+string(side)+")")
	}
	switch len(places) {
	case 0:
		return liesAt(v, n, at)
	case 1:
		return places[0]
	}
	return inventory.Place{Name: strings.Join(said, ", ")}
}

// liesAt is where a piece, or the set that a runner belongs to, was put last; what is on a
// boot lies where its pair does, or where it was put since it went on.
func liesAt(v inventory.View, n inventory.Number, at time.Time) inventory.Place {
	wholes, since := []inventory.Number{n}, time.Time{}
	if runner, err := inventory.FindRunner(v, n); err == nil {
		wholes = append(wholes, runner.SetAt(at))
	}
	if on := PairOf(v, n, at); on != 0 && on != n {
		since = wentOn(v, n, at)
		wholes = append(wholes, on)
	}
	var last inventory.Dated[inventory.Place]
	for _, whole := range wholes {
		places := inventory.MarksOf(v, whole).Places.Until(at)
		if len(places) == 0 || whole.Kind() != inventory.KindPair && places[len(places)-1].When.Start.Before(since) {
			continue
		}
		if put := places[len(places)-1]; !putBefore(put, last) {
			last = put
		}
	}
	return last.Value
}

// putBefore tells which of two puts was first; of one time, by the order in which they were
// noted.
func putBefore(a, b inventory.Dated[inventory.Place]) bool {
	if a.When.Start.Equal(b.When.Start) {
		return a.Event.Writer == b.Event.Writer && a.Event.Sequence < b.Event.Sequence
	}
	return a.When.Start.Before(b.When.Start)
}

// wentOn is when a runner or a holder that is on a boot went on last.
func wentOn(v inventory.View, n inventory.Number, at time.Time) time.Time {
	switch thing := v.Entity(inventory.RefOf(n)).(type) {
	case *inventory.Runner:
		if moves := thing.Moves.Until(at); len(moves) > 0 {
			return moves[len(moves)-1].When.Start
		}
	case *inventory.Holder:
		if boots := thing.Boots.Until(at); len(boots) > 0 {
			return boots[len(boots)-1].When.Start
		}
	}
	return time.Time{}
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
