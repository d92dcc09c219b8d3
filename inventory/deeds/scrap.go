package deeds

import (
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// Scrap throws pieces away.
type Scrap struct {
	Pieces []inventory.Number
	Reason string
}

// Decide records the end of pieces that are on nothing any more. Their history stays.
func (d Scrap) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if len(d.Pieces) == 0 {
		return out, inventory.RefuseValue("scan what is thrown away", "no piece was named")
	}
	body := &inventory.Scrapped{Reason: d.Reason}
	for _, n := range d.Pieces {
		if err := checkFree(v, n, m.at()); err != nil {
			return out, err
		}
		body.Pieces = append(body.Pieces, n)
		if set, ok := v.Entity(inventory.RefOf(n)).(*inventory.Set); ok {
			body.Pieces = append(body.Pieces, set.Left, set.Right)
		}
	}
	slices.Sort(body.Pieces)
	body.Pieces = slices.Compact(body.Pieces)
	out.record(m.Happened, body)
	return out, nil
}

// checkFree refuses a piece that is still on something, or gone already.
func checkFree(v inventory.View, n inventory.Number, at time.Time) error {
	state := v.Entity(inventory.RefOf(n))
	if !inventory.IsEntered(state) {
		return inventory.Refuse("scan a runner, a holder, a pair or a set", "%s is not a piece in this book", n.Short())
	}
	if inventory.MarksOf(v, n).ScrappedAt(at) {
		return inventory.Refuse("steeltally history "+n.Short()+" shows when", "%s was scrapped already", n.Short())
	}
	switch state := state.(type) {
	case *inventory.Runner:
		if standing.Held(v, state, at) {
			return inventory.Refuse("take it out first: steeltally out "+n.Short(), "%s is in a holder", n.Short())
		}
	case *inventory.Holder:
		if boot := state.BootAt(at); boot.Pair != 0 {
			return inventory.Refuse("take it off first: steeltally rivet off "+n.Short(), "%s is on pair %s", n.Short(), boot.Pair.Short())
		}
	case *inventory.Pair:
		if on := inventory.PiecesOn(state, at); len(on) > 0 {
			return inventory.Refuse("take holders and steel off first", "%s is still on pair %s", on[0].Short(), n.Short())
		}
	case *inventory.Set:
		if standing.SetState(v, state, at) == inventory.On {
			return inventory.Refuse("take it off first: steeltally out", "set %s is on", state.Letter)
		}
	default:
		return inventory.Refuse("scan a runner, a holder, a pair or a set", "a %s is not scrapped, a piece is", n.Kind())
	}
	return nil
}
