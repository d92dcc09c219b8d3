package roadtrip

import (
	"cmp"
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// Lying is a place with the pieces that lie there and are on nothing.
type Lying struct {
	Place  string             `json:"place"`     // empty: nobody noted where
	Done   []inventory.Number `json:"done_with"` // kept for the record, or to be thrown away
	Usable []inventory.Number `json:"usable"`    // ready, or in stock
}

// LyingAbout lists what lies about at the season's end, place by place: a trunk, a bin,
// a shelf. What was scrapped, what is on a boot and what somebody else has is left out.
func LyingAbout(v inventory.View, at time.Time) []Lying {
	places := map[string]*Lying{}
	for _, kind := range []inventory.Kind{inventory.KindRunner, inventory.KindHolder} {
		v.Each(kind, func(n inventory.Number, state inventory.Entity) bool {
			lies, done := liesAbout(v, n, state, at)
			if !lies {
				return true
			}
			name := standing.PlaceOf(v, n, at).Name
			if places[name] == nil {
				places[name] = &Lying{name, []inventory.Number{}, []inventory.Number{}}
			}
			if done {
				places[name].Done = append(places[name].Done, n)
			} else {
				places[name].Usable = append(places[name].Usable, n)
			}
			return true
		})
	}
	all := []Lying{}
	for _, lying := range places {
		all = append(all, *lying)
	}
	slices.SortFunc(all, func(a, b Lying) int { return cmp.Compare(a.Place, b.Place) })
	return all
}

// liesAbout tells whether a piece is on nothing and here, and whether it is done with.
func liesAbout(v inventory.View, n inventory.Number, state inventory.Entity, at time.Time) (lies, done bool) {
	marks := inventory.MarksOf(v, n)
	if marks.ScrappedAt(at) || !marks.CustodyAt(at).Ours() || !inventory.StateEntered(v, n) {
		return false, false
	}
	switch piece := state.(type) {
	case *inventory.Runner:
		s := standing.RunnerState(v, piece, at)
		return s != inventory.On && s != inventory.InHolder && !piece.Since.After(at), s == inventory.Removed || !standing.Skateable(v, at, n)
	case *inventory.Holder:
		return standing.HolderState(v, piece, at) != inventory.On && !piece.Since.After(at), !standing.Skateable(v, at, n)
	}
	return false, false
}
