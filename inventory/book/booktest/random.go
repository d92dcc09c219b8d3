package booktest

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"time"

	"steeltally/inventory"
)

// Drawer draws random actions on a few pieces: work, moves, corrections of earlier
// events and of corrections, clocks set right, kinds that no version knows. They need make no sense:
// the fold is total.
type Drawer struct {
	random *rand.Rand
	Known  []inventory.Key // what a correction can void
}

// NewDrawer makes a drawer from a seed.
func NewDrawer(seed uint64) *Drawer {
	return &Drawer{random: rand.New(rand.NewPCG(seed, 2))}
}

// Knowing lets corrections void some events from the start.
func (d *Drawer) Knowing(keys []inventory.Key) *Drawer {
	d.Known = append(d.Known, keys...)
	return d
}

// Action draws the drafts of one action, one to three of them.
func (d *Drawer) Action() []inventory.Draft {
	drafts := make([]inventory.Draft, 1+d.random.IntN(3))
	for i := range drafts {
		happened := Noted().Add(time.Duration(d.random.IntN(5000)) * time.Hour)
		drafts[i] = inventory.Draft{Happened: inventory.At(happened), Body: d.body()}
	}
	return drafts
}

// Learn lets later corrections void some events.
func (d *Drawer) Learn(events []inventory.Event) {
	for _, e := range events {
		d.Known = append(d.Known, e.Key)
	}
}

// Piece draws one of a dozen numbers of a kind.
func (d *Drawer) Piece(kind inventory.Kind) inventory.Number {
	n, err := inventory.NewNumber(kind, 1, 1+d.random.IntN(12))
	if err != nil {
		panic(err) // the arguments are always in range
	}
	return n
}

func (d *Drawer) body() inventory.Body {
	switch d.random.IntN(8) {
	case 0:
		return &inventory.PlayerNoted{Player: d.Piece(inventory.KindPlayer), Name: "Tove Markvard", Sweater: d.random.IntN(98)}
	case 1:
		return &inventory.StockedIn{Pieces: []inventory.Number{d.Piece(inventory.KindRunner), d.Piece(inventory.KindHolder)}, Model: "Model R", Size: 280}
	case 2:
		return &inventory.Session{Game: true, Opponent: "Ironvoe Lanterns", Month: inventory.ScheduleRef(Noted())}
	case 3:
		return d.correction()
	case 4:
		text := fmt.Sprintf(`{"runner":"%s","glow":%d}`, d.Piece(inventory.KindRunner), d.random.IntN(9))
		return &inventory.Foreign{Name: "polish", Raw: json.RawMessage(text)}
	case 5:
		return d.clock()
	}
	return d.grind()
}

// clock draws that a clock was in doubt, or right, or set right over some stretches of
// entries, now and then.
func (d *Drawer) clock() inventory.Body {
	if len(d.Known) == 0 {
		return d.grind()
	}
	known := d.Known[d.random.IntN(len(d.Known))]
	switch d.random.IntN(6) {
	case 0:
		return &inventory.ClockDoubted{Entries: 1, Last: inventory.At(Noted())}
	case 1:
		return &inventory.ClockRight{Doubts: []inventory.Key{known}}
	case 2, 3:
		first := known.Sequence - min(known.Sequence-1, d.random.Uint64N(20))
		runs := []inventory.Run{{First: first, Count: 1 + d.random.Uint64N(4)}, {First: first + 4 + d.random.Uint64N(3), Count: 1 + d.random.Uint64N(9)}}
		return &inventory.ClockSet{Of: known.Writer, Entries: runs, By: (d.random.Int64N(4001) - 2000) * 3600, Doubts: []inventory.Key{known}}
	}
	return d.grind()
}

func (d *Drawer) grind() inventory.Body {
	passes := d.random.IntN(9)
	work := &inventory.Ground{Player: d.Piece(inventory.KindPlayer), Set: d.Piece(inventory.KindSet), Work: "grind"}
	work.Left = &inventory.Passes{Runner: d.Piece(inventory.KindRunner), Passes: &passes}
	work.Right = &inventory.Passes{Runner: d.Piece(inventory.KindRunner)}
	return work
}

func (d *Drawer) correction() inventory.Body {
	c := &inventory.Correction{Words: "wrong player", About: []inventory.Number{d.Piece(inventory.KindPlayer)}}
	for range 1 + d.random.IntN(2) {
		if len(d.Known) > 0 {
			recent := min(len(d.Known), 30)
			c.Voids = append(c.Voids, d.Known[len(d.Known)-1-d.random.IntN(recent)])
		}
	}
	return c
}
