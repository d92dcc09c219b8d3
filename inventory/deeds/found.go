package deeds

import "steeltally/inventory"

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
