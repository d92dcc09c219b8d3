package deeds

import (
	"slices"
	"strconv"

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
		return inventory.RefuseValue("leave it out where none is written", "sweater %d: sweaters go from 1 to %d", d.Sweater, inventory.MostSweater)
	}
	if d.Player != 0 {
		if _, err := inventory.PlayerOf(v, d.Player); err != nil {
			return err
		}
	}
	if d.CameOff.After(m.Now.Add(clockTolerance)) {
		return inventory.RefuseValue("check the year", "it came off on a day still to come")
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
		return out, inventory.RefuseValue("write it as --sweater 38 --season 2023/24", "that is no sweater, or no season that has been")
	}
	out.record(d.Then, &wore)
	d.afterwards(player, m, wore, &out)
	if others := slices.DeleteFunc(inventory.RosterOf(v).WoreIn(d.Sweater, d.Then), func(n inventory.Number) bool { return n == d.Player }); len(others) > 0 {
		out.tell("enter them with --player", "somebody else wore it then, too: old pieces stay kept by the sweater")
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
