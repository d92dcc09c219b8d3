package desk

import (
	"cmp"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// PieceLine is how a piece, a set or a pair stands: the same in whatever names it.
type PieceLine struct {
	Custody    inventory.Custodian  `json:"custody"`
	DoNotSkate bool                 `json:"do_not_skate"`            // on it, or on anything that makes it up or hangs on it
	Height     *geometry.Millimetre `json:"height_now_mm,omitempty"` // of a runner, where it is asked for
	Kind       string               `json:"kind"`
	Number     inventory.Number     `json:"number"`
	Pair       inventory.Number     `json:"pair"`  // that it is on, or is; zero: none
	Place      string               `json:"place"` // empty: not known
	Safety     standing.Safety      `json:"safety"`
	Short      string               `json:"short"`
	Side       inventory.Side       `json:"side"`
	State      inventory.State      `json:"state"`
}

// Pieces tells how what some numbers name stands, but for heights that rest on the club's
// wear.
func (d *Desk) Pieces(numbers []inventory.Number) (map[inventory.Number]PieceLine, error) {
	pieces := map[inventory.Number]PieceLine{}
	return pieces, d.ask(func(v inventory.View, at time.Time) error {
		now := standing.NewNow(v, at, nil)
		for _, n := range numbers {
			if n.Kind() == inventory.KindRunner && standing.Wears(v, n, at) {
				pieces[n] = pieceLine(v, n, at)
			} else {
				pieces[n] = pieceLine(now, n, at)
			}
		}
		return nil
	})
}

// pieceIf tells the same where there is a number.
func pieceIf(v inventory.View, n inventory.Number, at time.Time) *PieceLine {
	if n == 0 {
		return nil
	}
	piece := pieceLine(v, n, at)
	return &piece
}

// pieceLine tells how what a number names stands at an instant.
func pieceLine(v inventory.View, n inventory.Number, at time.Time) PieceLine {
	safety := standing.SafetyOf(v, n, at)
	piece := PieceLine{
		Number: n, Pair: standing.PairOf(v, n, at), Short: n.Short(), Kind: n.Kind().String(), State: standing.StateOf(v, n, at), Place: standing.PlaceOf(v, n, at).String(),
		Custody: cmp.Or(inventory.MarksOf(v, n).CustodyAt(at).Custody, inventory.CustodyClub), Safety: safety, DoNotSkate: safety != standing.Sound,
	}
	switch thing := v.Entity(inventory.RefOf(n)).(type) {
	case *inventory.Runner:
		piece.Side = thing.SideAt(at)
		if now, known := v.(*standing.Now); known {
			piece.Height = now.HeightOf(n).Now
		}
	case *inventory.Holder:
		piece.Side = thing.SideOf()
	}
	return piece
}
