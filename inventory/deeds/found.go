package deeds

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"steeltally/inventory"
)

// FindOld enters an old runner that carries nothing but what a marker pen wrote on it.
// It is counted among the pieces and left out of wear.
type FindOld struct {
	Player      inventory.Number // zero: nobody knows whose
	Sweater     int              // as written on it; 0: none
	Side        inventory.Side
	Inscription string
	CameOff     inventory.When // as vague as it is known
	Place       *inventory.Place
	Listed      string // what it is called in a list, such as row 3
}

// Decide gives the piece a number.
func (d FindOld) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if err := d.check(v, m); err != nil {
		return out, err
	}
	numbers, err := nextNumbers(v, inventory.KindRunner, 1, &out)
	if err != nil {
		return out, err
	}
	out.record(d.CameOff, d.body(numbers[0]))
	return out, nil
}

// check refuses what can't be, or what the record does not know.
func (d FindOld) check(v inventory.View, m Moment) error {
	if err := checkName("what is written on it", d.Inscription); err != nil {
		return err
	}
	if d.Place != nil {
		if err := checkName("the place", d.Place.Name); err != nil {
			return err
		}
	}
	if d.Sweater < 0 || d.Sweater > inventory.MostSweater {
		return inventory.RefuseValue(fmt.Sprintf("sweater %d: sweaters go from 1 to %d", d.Sweater, inventory.MostSweater), "leave it out where none is written")
	}
	if d.Player != 0 {
		if _, err := inventory.PlayerOf(v, d.Player); err != nil {
			return err
		}
	}
	if d.CameOff.After(m.Now.Add(clockTolerance)) {
		return inventory.RefuseValue("it came off on a day still to come", "check the year")
	}
	return nil
}

func (d FindOld) body(n inventory.Number) *inventory.FoundOld {
	return &inventory.FoundOld{Piece: n, Player: d.Player, Sweater: d.Sweater, Side: d.Side, Inscription: d.Inscription, Place: d.Place}
}

// WoreSweater says what sweater a player wore in a time that was, such as a season.
type WoreSweater struct {
	Player  inventory.Number
	Sweater int
	Then    inventory.When
}

// Decide records it, and that what the record said holds again afterwards. The old pieces
// of that sweater and time that were nobody's are his, unless somebody else wore it too.
func (d WoreSweater) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	player, err := inventory.PlayerOf(v, d.Player)
	if err != nil {
		return out, err
	}
	wore := inventory.PlayerNoted{Player: d.Player, Name: player.Name, Position: player.Position, Sweater: d.Sweater}
	if err := checkPerson(wore.Name, wore.Position, d.Sweater); err != nil {
		return out, err
	}
	if d.Sweater == 0 || d.Then.Unknown() || d.Then.Exact() || d.Then.After(m.Now) {
		return out, inventory.RefuseValue("that is no sweater, or no season that has been", "write it as --sweater 38 --season 2023/24")
	}
	out.record(d.Then, &wore)
	d.afterwards(player, m, wore, &out)
	if others := slices.DeleteFunc(inventory.RosterOf(v).WoreIn(d.Sweater, d.Then), func(n inventory.Number) bool { return n == d.Player }); len(others) > 0 {
		out.tell("somebody else wore it then, too: old pieces stay kept by the sweater", "enter them with --player")
		return out, nil
	}
	d.takeOldPieces(v, m, player, &out)
	return out, nil
}

// afterwards records what he wore next, where the record does not say it already; and
// last that he has left, if so.
func (d WoreSweater) afterwards(player *inventory.Player, m Moment, wore inventory.PlayerNoted, out *Outcome) {
	last := player.Sweaters[len(player.Sweaters)-1].When
	changes := slices.ContainsFunc(player.Sweaters, func(s inventory.Dated[int]) bool {
		return s.When.After(d.Then.Start) && !s.When.After(d.Then.End)
	})
	if end := inventory.At(d.Then.End); !changes && !end.After(m.Now) {
		next := wore
		next.Sweater, next.Gone = player.Sweater(end.Start), player.Gone && !last.After(end.Start)
		out.record(end, &next)
	}
	if player.Gone && last.After(d.Then.Start) {
		wore.Sweater, wore.Gone = 0, true
		out.record(last, &wore)
	}
}

// takeOldPieces notes the pieces anew, as his.
func (d WoreSweater) takeOldPieces(v inventory.View, m Moment, player *inventory.Player, out *Outcome) {
	correction := &inventory.Correction{Words: "old pieces of sweater " + strconv.Itoa(d.Sweater) + " were " + player.Name + "'s"}
	var his []inventory.Draft
	v.Each(inventory.KindRunner, func(n inventory.Number, state inventory.Entity) bool {
		r, ok := state.(*inventory.Runner)
		if !ok || r.Found == nil || r.Found.Player != 0 || r.Found.Sweater != d.Sweater || r.Stock.Since.Start.Before(d.Then.Start) || r.Stock.Since.End.After(d.Then.End) {
			return true
		}
		found := &inventory.FoundOld{Piece: n, Player: d.Player, Sweater: d.Sweater, Side: r.Stock.Side, Inscription: r.Found.Text}
		for _, place := range r.Places {
			if place.Event == r.Stock.Event {
				found.Place = &place.Value
			}
		}
		correction.Voids, correction.About = append(correction.Voids, r.Stock.Event), append(correction.About, n)
		his = append(his, inventory.Draft{Happened: r.Stock.Since, Body: found})
		return true
	})
	if len(his) > 0 {
		out.record(m.Happened, correction)
		out.Drafts = append(out.Drafts, his...)
	}
}

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
		return out, inventory.RefuseValue("the list has no pieces", "it takes a row for each piece, under the one that names the columns")
	}
	if len(d.Pieces) > MostOld {
		return out, inventory.RefuseValue(fmt.Sprintf("%d pieces: 1 to %d can be entered at once", len(d.Pieces), MostOld), "enter more in several goes")
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
			return inventory.Refuse(fmt.Sprintf("%s is the same piece: %q", other.called, inventory.Clip(piece.Inscription)), "leave it out; where it is another piece, --alike enters it")
		}
	}
	return nil
}

// asWritten is an inscription without what two hands type differently.
func asWritten(inscription string) string {
	return strings.ToUpper(strings.Join(strings.Fields(inscription), " "))
}
