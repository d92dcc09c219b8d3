// Package demo plays seasons of the invented club Skarn Harbour Terns and keeps its
// book, so that every screen, tag and forecast has something to show.
//
// The simulator knows what truly happens (see truth.go and the package truth): who
// skates when, what a grind takes off, what breaks. What its staff write down of it
// goes through the same decisions as a real person's entries, with their slips: late,
// twice, for the wrong player, on the wrong set, or not at all. Everything is drawn
// from one seed; the same seed and end day give the same book.
package demo

import (
	"context"
	"errors"
	"io"
	"math/rand/v2"
	"os"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/deeds"
	"steeltally/inventory/standing"
)

// Options say what book to make.
type Options struct {
	Seed     uint64
	End      time.Time          // the book ends with the evening before this day
	Events   int                // about how many; 0 is 40,000, one and a half seasons
	Progress func(done, of int) // called once a day; nil is allowed
	Random   io.Reader          // for the id of the book's writer; nil is the system's
}

// Summary says what was made.
type Summary struct {
	Runners int       `json:"runners"` // in the book
	Removed int       `json:"removed"` // of them done with
	Events  int       `json:"events"`
	Begin   time.Time `json:"-"` // the day on which the book begins
}

var errNoEnd = errors.New("a demonstration needs the day on which it ends")

// Write makes a book in a folder that is new or empty and plays the club's seasons into
// it. Either the whole of it is there afterwards, or nothing is.
func Write(ctx context.Context, dir string, o Options) (Summary, error) {
	if o.End.IsZero() {
		return Summary{}, errNoEnd
	}
	c, err := newClub(o)
	if err != nil {
		return Summary{}, err
	}
	if err := found(dir, o, c); err != nil {
		return Summary{}, err
	}
	summary, err := play(ctx, dir, c)
	if err != nil {
		return Summary{}, errors.Join(err, os.RemoveAll(dir))
	}
	return summary, nil
}

// playAll plays from the first day to the end.
func (c *club) playAll() error {
	c.begin()
	tomorrow := c.opening.AddDate(0, 0, 1)
	c.agenda.add(clock(tomorrow, 0, 5), func() { c.day(tomorrow) })
	for task, ok := c.agenda.next(c.end); ok && c.err == nil; task, ok = c.agenda.next(c.end) {
		c.turnTo(task.at)
		task.run()
	}
	return c.err
}

// newClub draws the club as it is before the book begins.
func newClub(o Options) (*club, error) {
	zone, err := time.LoadLocation(zoneName)
	if err != nil {
		zone = time.UTC
	}
	if o.Events <= 0 {
		o.Events = usualEvents
	}
	c := &club{
		scribe: newScribe(), chance: chance{rand.New(rand.NewPCG(o.Seed, 0x7465726e73))},
		calendar: calendarFor(o.End.In(zone), zone), stock: newStockroom(),
	}
	c.end = c.calendar.dayOf(o.End)
	c.opening = c.calendar.back(c.end, max(leastSeasons, float64(o.Events-openingEvents)/seasonEvents))
	if next := c.calendar.after(c.calendar.current(c.opening)); next.camp.Sub(c.opening) < 10*24*time.Hour {
		c.opening = next.camp.AddDate(0, 0, -10) // so that the camp can be prepared
	}
	c.skaters = skatersTruth().NewClub(c.chance.Rand)
	c.keepers = keepersTruth().NewClub(c.chance.Rand)
	c.skua, c.petrel, c.auk = systems()
	c.namer = newNamer(c.chance)
	c.writer = staff()[0]
	c.turnTo(clock(c.opening, 7, 0))
	c.announce = func() {
		if o.Progress != nil {
			o.Progress(c.entered, max(o.Events, c.entered))
		}
	}
	return c, nil
}

// found makes the book with its first entry.
func found(dir string, o Options, c *club) error {
	moment, err := deeds.NewMoment(inventory.At(c.now()), c.now())
	if err != nil {
		return err
	}
	deed := deeds.FoundClub{Name: clubName, Zone: zoneName, Station: station}
	outcome, err := deed.Decide(&inventory.Ledger{}, moment)
	if err != nil {
		return err
	}
	c.entered += len(outcome.Drafts)
	return book.CreateWith(dir, o.Random, book.Stamp{Who: c.writer, Noted: c.now()}, outcome.Drafts)
}

// play plays the seasons into a book that was just made.
func play(ctx context.Context, dir string, c *club) (Summary, error) {
	b, err := book.Open(dir, book.Options{})
	if err != nil {
		return Summary{}, err
	}
	err = b.Bulk(func(record book.Recorder) error {
		c.record = func(stamp book.Stamp, decide book.Decide) ([]inventory.Event, error) {
			if err := ctx.Err(); err != nil {
				return nil, err
			}
			return record(stamp, decide)
		}
		return c.playAll()
	})
	summary := Summary{Begin: c.opening}
	if err == nil {
		summary, err = c.sum(b)
	}
	return summary, errors.Join(err, b.Close())
}

// sum counts what the book has.
func (c *club) sum(b *book.Book) (Summary, error) {
	summary := Summary{Events: c.entered, Begin: c.opening}
	err := b.Read(func(v inventory.View) error {
		v.Each(inventory.KindRunner, func(_ inventory.Number, e inventory.Entity) bool {
			// A stock-in that was taken back leaves a number without a piece.
			if r, ok := e.(*inventory.Runner); ok && r.Entered() {
				summary.Runners++
				if standing.RunnerState(v, r, c.end) == inventory.Removed {
					summary.Removed++
				}
			}
			return true
		})
		return nil
	})
	return summary, err
}
