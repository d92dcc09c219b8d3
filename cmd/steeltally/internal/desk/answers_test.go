package desk

import (
	"errors"
	"flag"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"testing"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

var full = flag.Bool("full", false, "ask everything at every step")

// twoBooks are two stations' books of one club, with the only goalkeeper and a skater.
type twoBooks struct {
	t     *testing.T
	r     *rand.Rand
	paths [2]string
	now   time.Time
	done  map[string]int
}

func newTwoBooks(t *testing.T, seed uint64) *twoBooks {
	b := &twoBooks{t: t, r: rand.New(rand.NewPCG(seed, 71)), now: theNow.AddDate(0, -2, 0), done: map[string]int{}}
	for i := range b.paths {
		b.paths[i] = filepath.Join(t.TempDir(), "book")
		must(t, Init(b.options(i), deeds.FoundClub{Name: "Skarn Harbour Terns", Zone: "UTC", Station: 1 + i}))
	}
	b.on(0, func(d *Desk) error {
		return errors.Join(b.player(d, 31, "Torvi Askelund", "goalkeeper"), b.player(d, 17, "Ansgar Lindqvarn", "defence"))
	})
	b.merge(1, 0, true)
	return b
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func (b *twoBooks) options(i int) Options {
	return Options{Book: b.paths[i], Now: func() time.Time { return b.now }}
}

func (b *twoBooks) on(i int, act func(d *Desk) error) {
	b.t.Helper()
	d, err := Open(b.options(i))
	must(b.t, err)
	must(b.t, errors.Join(act(d), d.Close()))
}

func (b *twoBooks) merge(into, from int, first bool) {
	b.on(into, func(d *Desk) error {
		_, err := d.Merge(b.paths[from], first)
		return err
	})
}

func (b *twoBooks) player(d *Desk, sweater int, name, position string) error {
	who, low, usual, height := fmt.Sprint(sweater), geometry.Millimetre(8.4), 5, geometry.Millimetre(11.9)
	_, _, err1 := d.AddPlayer(deeds.AddPlayer{Name: name, Sweater: sweater, Position: position})
	_, err2 := d.NoteSpecs(who, inventory.Specs{ChangeHeight: &low, Passes: &usual})
	_, _, err3 := d.AddPair(who, "first")
	runners, _, err4 := d.StockIn(deeds.StockIn{Piece: inventory.KindRunner, Model: "Skua " + position, Size: 280, Height: &height, Count: 4})
	if err := errors.Join(err1, err2, err3, err4); err != nil {
		return err
	}
	for i := 0; i < 4; i += 2 {
		if _, _, err := d.AddSet(who, "", runners[i].String(), runners[i+1].String()); err != nil {
			return err
		}
	}
	return nil
}

// step does something at one of the stations; what the record does not allow is left.
func (b *twoBooks) step(d *Desk) {
	who := []string{"31", "31", "17"}[b.r.IntN(3)]
	low, high := inventory.KindRunner, 8
	runner := func() string { n, _ := inventory.NewNumber(low, 1, 1+b.r.IntN(high)); return n.String() }
	letter := string(rune('A' + b.r.IntN(5)))
	height := geometry.Millimetre(12 - 4*b.r.Float64())
	var err error
	what := []string{"set", "set", "in", "in", "change", "change", "grind", "grind", "measure", "damage", "undo", "undo", "alarm", "game"}[b.r.IntN(14)]
	switch what {
	case "set":
		_, _, err = d.AddSet(who, "", runner(), runner())
	case "in":
		_, err = d.PutIn(who, letter, "")
	case "change":
		_, err = d.Change(Off{Who: who, Reason: []inventory.Reason{"low", "rotate"}[b.r.IntN(2)]}, letter)
	case "grind":
		_, err = d.Grind([]string{who}, nil, "", deeds.Grind{})
	case "measure":
		h, l := inventory.Height{Middle: &height}, inventory.Height{Middle: &height}
		_, err = d.Measure(Caliper{Who: who, AsRead: true, Sides: inventory.Both[inventory.Height]{Left: &h, Right: &l}})
	case "damage":
		_, err = d.Damage(runner(), deeds.ReportDamage{Mode: "crack"}, nil)
	case "undo": // now and then what was taken back a moment ago
		_, err = d.Correct(Correction{About: []string{who, ""}[b.r.IntN(2)]})
	case "alarm":
		_, _, err = d.Emergency(Alarm{Who: who, Side: inventory.Sides()[b.r.IntN(2)]})
	case "game":
		_, err = d.AddSession(b.now.AddDate(0, 0, 1+b.r.IntN(60)).Format(time.RFC3339), deeds.AddSession{})
	}
	if err == nil {
		b.done[what]++
	} else if FailureOf(err) == Failed || FailureOf(err) == Damaged {
		b.t.Fatalf("%s: %v", what, err)
	}
}

// ask asks everything, and wants an answer about everybody.
func (b *twoBooks) ask(d *Desk, pages bool) {
	b.t.Helper()
	list, err := d.Due(DueAsked{})
	b.answered("due", err, len(list.Unworked)+len(list.Notices))
	_, err = d.Due(DueAsked{Players: []string{"31"}})
	b.answered("due of one", err, 0)
	buy, err := d.BuyList(b.now.AddDate(0, 1, 0).Format(time.DateOnly), 14)
	b.answered("buylist", err, len(buy.Unworked))
	review, err := d.Review(ReviewAsked{})
	b.answered("review", err, len(review.Unworked))
	if pages {
		written, err := d.PrintReview(review, Sheet{File: filepath.Join(b.t.TempDir(), "review.pdf")})
		b.answered("the review's pages", err, len(written.Notices))
	}
	spares, err := d.Spares(SparesAsked{})
	b.answered("spares", err, 0)
	work, err := d.Work()
	b.answered("work", err, 0)
	board, err := d.Board()
	b.answered("the board", err, 0)
	for _, text := range errorsOf(spares, work, board) {
		if text != "" {
			b.t.Fatal(text)
		}
	}
}

// errorsOf are what is wrong with each of some lines.
func errorsOf(spares []SpareLine, work []WorkItem, board []BoardLine) []string {
	var errs []string
	for _, line := range spares {
		errs = append(errs, line.Error)
	}
	for _, item := range work {
		errs = append(errs, item.Error)
	}
	for _, line := range board {
		errs = append(errs, line.Error)
	}
	return errs
}

func (b *twoBooks) answered(what string, err error, lacking int) {
	b.t.Helper()
	if lacking > 0 || err != nil && FailureOf(err) != Refused {
		b.t.Fatalf("%s: %d could not be worked out; %v", what, lacking, err)
	}
}

// TestEverythingIsAnsweredAtEveryStep works at two stations, merges them, and asks.
func TestEverythingIsAnsweredAtEveryStep(t *testing.T) {
	done, streams, every := map[string]int{}, uint64(4), 12
	if *full {
		streams, every = 40, 1
	}
	for seed := range streams {
		b := newTwoBooks(t, seed)
		for step := range 90 {
			b.now = b.now.Add(time.Duration(1+b.r.IntN(9)) * time.Hour)
			i := b.r.IntN(2)
			b.on(i, func(d *Desk) error {
				b.step(d)
				if step%every == 0 {
					b.ask(d, step%(3*every) == 0)
				}
				return nil
			})
			if step%20 == 19 {
				b.merge(0, 1, false)
				b.merge(1, 0, false)
			}
		}
		for what, count := range b.done {
			done[what] += count
		}
	}
	for _, what := range []string{"set", "in", "change", "grind", "measure", "damage", "undo", "alarm", "game"} {
		if done[what] == 0 {
			t.Errorf("%s was done %d times: that tries too little", what, done[what])
		}
	}
}
