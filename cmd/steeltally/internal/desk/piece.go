package desk

import (
	"cmp"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
)

// PieceLine is how a piece, a set or a pair stands: the same in whatever names it.
type PieceLine struct {
	Custody    string               `json:"custody"`
	DoNotSkate bool                 `json:"do_not_skate"` // on it, or on anything that makes it up or hangs on it
	Height     *geometry.Millimetre `json:"height_now_mm,omitempty"`
	Kind       string               `json:"kind"`
	Number     inventory.Number     `json:"number"`
	Place      string               `json:"place"` // empty: not known
	Short      string               `json:"short"`
	Side       inventory.Side       `json:"side"`
	State      inventory.State      `json:"state"`
}

// pieceLine tells how what a number names stands at an instant.
func pieceLine(v inventory.View, n inventory.Number, at time.Time) PieceLine {
	thing := v.Entity(inventory.RefOf(n))
	piece := PieceLine{
		Number: n, Short: n.Short(), Kind: n.Kind().String(), State: listedState(v, thing, at),
		Custody: cmp.Or(inventory.MarksOf(v, n).CustodyAt(at).Custody, inventory.CustodyClub), DoNotSkate: anyUnsafe(v, at, partsOf(thing, n, at)...),
	}
	if placed, ok := thing.(interface {
		Place(time.Time) inventory.Place
	}); ok {
		piece.Place = placed.Place(at).String()
	}
	switch thing := thing.(type) {
	case *inventory.Runner:
		piece.Side = thing.SideAt(at)
	case *inventory.Holder:
		piece.Side = thing.SideOf()
	}
	return piece
}
