package desk

import (
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
	"steeltally/inventory/travel"
)

// Squad is a look at the pairs and sets of all players. Reading it takes a while, so that
// it can be broken off where another program waits for the book, and gone on with later.
type Squad struct {
	at    time.Time
	wear  *standing.Learnt
	begun bool
	left  []inventory.Number // players who are not read yet
	told  []travel.Player
}

// Read tells whether all is read.
func (s *Squad) Read() bool { return s.begun && len(s.left) == 0 }

// squadStep is how many players are read before it is seen who waits for the book.
const squadStep = 4

// ReadSquad reads on until all is read or another program waits for the book; some players
// are read in any case.
func (d *Desk) ReadSquad(s *Squad) error {
	for first := true; !s.Read() && (first || !d.Wanted()); first = false {
		if err := d.readNext(s); err != nil {
			return err
		}
	}
	return nil
}

func (d *Desk) readNext(s *Squad) error {
	if !s.begun {
		var err error
		if s.wear, err = d.learnt(d.Instant()); err != nil {
			return err
		}
	}
	return d.ask(func(v inventory.View, _ time.Time) error {
		if !s.begun {
			s.begun, s.at = true, d.Instant()
			for _, member := range inventory.RosterOf(v).Members {
				s.left = append(s.left, member.Player)
			}
		}
		now := standing.NewNow(v, s.at, s.wear)
		for range min(squadStep, len(s.left)) {
			s.told, s.left = travel.AddTo(s.told, now, s.left[0]), s.left[1:]
		}
		if s.Read() {
			travel.BySweater(s.told)
		}
		return nil
	})
}

// squad reads all of it.
func (d *Desk) squad() (*Squad, error) {
	var s Squad
	for !s.Read() {
		if err := d.ReadSquad(&s); err != nil {
			return nil, err
		}
	}
	return &s, nil
}

// WorstSpares tells which spare pairs of a squad travel, what is missing first.
func (d *Desk) WorstSpares(s *Squad) ([]SpareLine, error) {
	lines := []SpareLine{}
	err := d.ask(func(v inventory.View, _ time.Time) error {
		travel.WorstFirst(s.told)
		for i := range s.told {
			lines = append(lines, d.spareLine(v, &s.told[i], s.at))
		}
		return nil
	})
	return lines, err
}
