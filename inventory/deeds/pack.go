package deeds

import (
	"fmt"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// PackLot is what goes into one trunk, or comes out of it.
type PackLot struct {
	Trunk  inventory.Number // zero: nobody said which
	Pieces []inventory.Number
	Kits   []inventory.KitCount
}

// Pack puts pieces and kits into trunks for a trip.
type Pack struct {
	Trip string
	Lots []PackLot
	Out  bool
}

// Decide records what lies where from now on, and says what should not travel.
func (d Pack) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	trip, err := inventory.FindTrip(v, d.Trip)
	if err != nil {
		return out, err
	}
	for _, lot := range d.Lots {
		if err := d.packLot(v, m, trip, lot, &out); err != nil {
			return out, err
		}
	}
	if len(out.Drafts) == 0 {
		return out, inventory.RefuseValue("scan a trunk, then what goes into it", "nothing was scanned")
	}
	return out, nil
}

func (d Pack) packLot(v inventory.View, m Moment, trip *inventory.Trip, lot PackLot, out *Outcome) error {
	if len(lot.Pieces)+len(lot.Kits) == 0 {
		return nil
	}
	body := &inventory.Packed{Trip: trip.Name, Trunk: lot.Trunk, Kits: lot.Kits, Out: d.Out}
	if lot.Trunk != 0 {
		trunk, err := inventory.FindContainer(v, lot.Trunk)
		if err != nil {
			return err
		}
		body.Place = &inventory.Place{Name: trunk.Name}
	}
	var along []inventory.Number
	for _, n := range lot.Pieces {
		parts, err := d.pack(v, m, trip, n, lot.Trunk, out)
		if err != nil {
			return err
		}
		body.Pieces, along = append(body.Pieces, n), append(along, parts...)
	}
	out.record(m.Happened, body)
	if body.Place != nil && !d.Out && len(along) > 0 {
		out.record(m.Happened, &inventory.Placed{Pieces: along, Place: *body.Place})
	}
	return nil
}

// pack checks one piece and gives what lies where it lies.
func (d Pack) pack(v inventory.View, m Moment, trip *inventory.Trip, n, trunk inventory.Number, out *Outcome) ([]inventory.Number, error) {
	state := v.Entity(inventory.RefOf(n))
	if !inventory.IsEntered(state) {
		state = nil
	}
	var along []inventory.Number
	switch state := state.(type) {
	case *inventory.Runner, *inventory.Holder:
	case *inventory.Pair:
		d.tellWhose(v, m, trip, state.Player, n, out)
	case *inventory.Set:
		along = []inventory.Number{state.Left, state.Right}
		d.tellWhose(v, m, trip, state.Player, n, out)
	default:
		return nil, inventory.Refuse("scan a pair, a set, a holder or a runner; a trunk before what goes into it", "%s is not a piece in this book", n.Short())
	}
	if d.Out {
		return along, nil
	}
	if unsafe := standing.UnsafePart(v, n, m.at()); unsafe != 0 {
		out.tell("take it along only for the maker, tagged", fmt.Sprintf("%s is unsafe: DO NOT SKATE", unsafe.Short()))
	}
	if was, packed := trip.In(n); packed && was.Trunk != trunk && was.Trunk != 0 {
		out.tell("it lies where it was scanned last", fmt.Sprintf("%s was in %s", n.Short(), was.Trunk.Short()))
	}
	return along, nil
}

func (d Pack) tellWhose(v inventory.View, m Moment, trip *inventory.Trip, n, piece inventory.Number, out *Outcome) {
	player, ok := v.Entity(inventory.RefOf(n)).(*inventory.Player)
	if ok && !d.Out && !trip.Comes(n, !player.Gone) {
		out.tell("steeltally trip roster "+inventory.Quoted(trip.Name)+" --with "+player.Typed(m.at())+" if he does", fmt.Sprintf("%s is %s's, who does not come along", piece.Short(), player.Name))
	}
}
