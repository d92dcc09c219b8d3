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
}

// Decide gives the piece a number.
func (d FindOld) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if err := checkName("what is written on it", d.Inscription); err != nil {
		return out, err
	}
	if d.Sweater < 0 || d.Sweater > inventory.MostSweater {
		return out, inventory.RefuseValue("leave it out where none is written", "sweater %d: sweaters go from 1 to %d", d.Sweater, inventory.MostSweater)
	}
	if d.Player != 0 {
		if _, err := inventory.PlayerOf(v, d.Player); err != nil {
			return out, err
		}
	}
	if d.CameOff.After(m.Now.Add(clockTolerance)) {
		return out, inventory.RefuseValue("check the year", "it came off on a day still to come")
	}
	numbers, err := nextNumbers(v, inventory.KindRunner, 1, &out)
	if err != nil {
		return out, err
	}
	out.record(d.CameOff, &inventory.FoundOld{
		Piece: numbers[0], Player: d.Player, Sweater: d.Sweater, Side: d.Side, Inscription: d.Inscription, Place: d.Place,
	})
	return out, nil
}
