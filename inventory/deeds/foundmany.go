package deeds

import (
	"strings"

	"steeltally/inventory"
)

// FindManyOld enters a whole list of old runners as one action.
type FindManyOld struct {
	Pieces []FindOld
	Alike  bool // what looks like a piece that is known already is another one
}

// MostOld bounds one list; a club's bin of many seasons has fewer.
const MostOld = 10_000

// Decide is all of them or none; each gets a number of its own.
func (d FindManyOld) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if len(d.Pieces) == 0 {
		return out, inventory.RefuseValue("it takes a row for each piece, under the one that names the columns", "the list has no pieces")
	}
	if len(d.Pieces) > MostOld {
		return out, inventory.RefuseValue("enter more in several goes", "%d pieces: 1 to %d can be entered at once", len(d.Pieces), MostOld)
	}
	for _, fault := range d.Faults(v, m) {
		if fault != nil {
			return out, fault
		}
	}
	numbers, err := nextNumbers(v, inventory.KindRunner, len(d.Pieces), &out)
	if err != nil {
		return out, err
	}
	for i, piece := range d.Pieces {
		out.record(piece.CameOff, piece.body(numbers[i]))
	}
	return out, nil
}

// Faults says of each piece why it can't be entered; nil where it can.
func (d FindManyOld) Faults(v inventory.View, m Moment) []error {
	faults := make([]error, len(d.Pieces))
	known := oldPieces{}
	if !d.Alike {
		known.addRecorded(v)
	}
	for i, piece := range d.Pieces {
		if faults[i] = piece.check(v, m); faults[i] != nil || d.Alike {
			continue
		}
		faults[i] = known.refuseAgain(piece)
		known.add(piece, piece.Listed)
	}
	return faults
}

// oldPieces are pieces that are known, by what is written on them.
type oldPieces map[string][]oldPiece

// oldPiece is one of them, and what it is called. Where one of the record lies tells
// nothing: it may have been put elsewhere since the list was written.
type oldPiece struct {
	FindOld
	called string
}

// addRecorded adds the old pieces that are in the record.
func (known oldPieces) addRecorded(v inventory.View) {
	v.Each(inventory.KindRunner, func(n inventory.Number, state inventory.Entity) bool {
		if r, ok := state.(*inventory.Runner); ok && r.Found != nil {
			known.add(FindOld{Player: r.Found.Player, Side: r.Stock.Side, Inscription: r.Found.Text, CameOff: r.Stock.Since}, n.Short())
		}
		return true
	})
}

func (known oldPieces) add(piece FindOld, called string) {
	text := asWritten(piece.Inscription)
	known[text] = append(known[text], oldPiece{piece, called})
}

// refuseAgain refuses a piece that may be one that is known: the same is written on it,
// and nothing else that is known of both tells them apart.
func (known oldPieces) refuseAgain(piece FindOld) error {
	for _, other := range known[asWritten(piece.Inscription)] {
		apart := piece.Place != nil && other.Place != nil && *piece.Place != *other.Place ||
			piece.Player != 0 && other.Player != 0 && piece.Player != other.Player ||
			piece.Side != "" && other.Side != "" && piece.Side != other.Side ||
			!piece.CameOff.Meets(other.CameOff)
		if !apart {
			return inventory.Refuse("leave it out; where it is another piece, --alike enters it", "%s is the same piece: %q", other.called, inventory.Clip(piece.Inscription))
		}
	}
	return nil
}

// asWritten is an inscription without what two hands type differently.
func asWritten(inscription string) string {
	return strings.ToUpper(strings.Join(strings.Fields(inscription), " "))
}
