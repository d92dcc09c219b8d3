package inventory

// FindOld enters an old runner that carries nothing but what a marker pen wrote on it.
// It is counted among the pieces and left out of wear.
type FindOld struct {
	Player      Number // zero: nobody knows whose
	Sweater     int    // as written on it; 0: none
	Side        Side
	Inscription string
	CameOff     When // as vague as it is known
	Place       *Place
}

// Decide gives the piece a number.
func (d FindOld) Decide(v View, m Moment) (Outcome, error) {
	var out Outcome
	if err := checkName("what is written on it", d.Inscription); err != nil {
		return out, err
	}
	if d.Sweater < 0 || d.Sweater > mostSweater {
		return out, badValue("leave it out where none is written", "sweater %d: sweaters go from 1 to %d", d.Sweater, mostSweater)
	}
	if d.Player != 0 {
		if _, err := PlayerOf(v, d.Player); err != nil {
			return out, err
		}
	}
	if d.CameOff.After(m.Now.Add(clockTolerance)) {
		return out, badValue("check the year", "it came off on a day still to come")
	}
	numbers, err := nextNumbers(v, KindRunner, 1)
	if err != nil {
		return out, err
	}
	out.record(d.CameOff, &FoundOld{
		Piece: numbers[0], Player: d.Player, Sweater: d.Sweater, Side: d.Side, Inscription: d.Inscription, Place: d.Place,
	})
	return out, nil
}
