package desk

import (
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"reflect"
	"runtime"
	"strings"
	"testing"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// theNow is the clock of these tests: a Wednesday morning.
var theNow = time.Date(2025, 11, 26, 9, 0, 0, 0, time.UTC)

// season is a book of some players, each with a worn set that is done with, one that is
// on and measured twice, and one that is ready.
type season struct {
	t    *testing.T
	path string
}

func newSeason(t *testing.T, players int) season {
	s := season{t, filepath.Join(t.TempDir(), "book")}
	err := Init(Options{Book: s.path, At: "2025-09-01T08:00:00Z", Now: func() time.Time { return theNow }}, deeds.FoundClub{Name: "Skarn Harbour Terns", Zone: "UTC", Station: 1})
	if err != nil {
		t.Fatal(err)
	}
	for i := range players {
		s.player(2 + i)
	}
	return s
}

// at opens the book for what happened on a day of the autumn, counted from 1 September.
func (s season) at(day int, act func(d *Desk) error) {
	s.t.Helper()
	when := time.Date(2025, 9, 1, 8, 0, 0, 0, time.UTC).AddDate(0, 0, day)
	d, err := Open(Options{Book: s.path, At: when.Format(time.RFC3339), Now: func() time.Time { return theNow }})
	if err == nil {
		err = errors.Join(act(d), d.Close())
	}
	if err != nil {
		s.t.Fatal(err)
	}
}

func (s season) player(sweater int) {
	s.t.Helper()
	who := fmt.Sprint(sweater)
	s.at(0, func(d *Desk) error { return s.equip(d, sweater) })
	for i, height := range []geometry.Millimetre{11.1, 10.2, 9.3} {
		s.wear(10*i+8, who, height)
	}
	s.at(31, func(d *Desk) error {
		low := geometry.Millimetre(8.3)
		_, err := d.Change(Off{Who: who, Reason: "low", Heights: inventory.Both[geometry.Millimetre]{Left: &low, Right: &low}}, "B")
		return err
	})
	for i, height := range []geometry.Millimetre{11.1, 10.2} {
		s.wear(10*i+40, who, height)
	}
}

func (s season) wear(day int, who string, height geometry.Millimetre) {
	s.t.Helper()
	forty := 40
	s.at(day, func(d *Desk) error {
		_, err := d.Grind([]string{who}, nil, "", deeds.Grind{Passes: inventory.Both[int]{Left: &forty, Right: &forty}})
		return err
	})
	s.at(day+1, func(d *Desk) error {
		h := inventory.Height{Middle: &height}
		l, r := h, h
		_, err := d.Measure(Caliper{Who: who, Sides: inventory.Both[inventory.Height]{Left: &l, Right: &r}})
		return err
	})
}

func (s season) equip(d *Desk, sweater int) error {
	who, low, usual := fmt.Sprint(sweater), geometry.Millimetre(8.4), 5
	height := geometry.Millimetre(11.9)
	_, _, err1 := d.AddPlayer(deeds.AddPlayer{Name: "Tove Brimhalt " + who, Sweater: sweater, Position: "forward"})
	_, err2 := d.NoteSpecs(who, inventory.Specs{ChangeHeight: &low, Passes: &usual})
	_, _, err3 := d.AddPair(who, "first")
	runners, _, err4 := d.StockIn(deeds.StockIn{Piece: inventory.KindRunner, Model: "Skua R", Size: 280, Height: &height, Count: 6})
	if err := errors.Join(err1, err2, err3, err4); err != nil {
		return err
	}
	for i := 0; i < 6; i += 2 {
		if _, _, err := d.AddSet(who, "", runners[i].String(), runners[i+1].String()); err != nil {
			return err
		}
	}
	_, err := d.PutIn(who, "A", "")
	return err
}

func (s season) read(ask func(d *Desk)) {
	s.t.Helper()
	d, err := OpenToRead(Options{Book: s.path, Now: func() time.Time { return theNow }})
	if err != nil {
		s.t.Fatal(err)
	}
	defer d.Close()
	ask(d)
}

// TestDueIsTheSameOnOneProcessor: the readers' shares come together in order.
func TestDueIsTheSameOnOneProcessor(t *testing.T) {
	s := newSeason(t, 4)
	asked := func(processors int) []string {
		defer runtime.GOMAXPROCS(runtime.GOMAXPROCS(processors))
		var told []string
		s.read(func(d *Desk) {
			list, err := d.Due(DueAsked{})
			if err != nil {
				t.Fatal(err)
			}
			for _, due := range list.Players {
				told = append(told, fmt.Sprintf("%d %s %.3f %d", due.Sweater, due.Letter, due.Passes.Middle, due.Earlier))
			}
		})
		return told
	}
	one, many := asked(1), asked(8)
	if len(one) != 4 || strings.Join(one, "; ") != strings.Join(many, "; ") {
		t.Errorf("on one processor %q, on many %q", one, many)
	}
	if !strings.Contains(one[0], " B ") || !strings.HasSuffix(one[0], " 2") {
		t.Errorf("%q: want set B, from two earlier runners", one[0])
	}
}

// TestReviewOfASeason adds up what the club's steel went through, and draws it.
func TestReviewOfASeason(t *testing.T) {
	s := newSeason(t, 3)
	s.read(func(d *Desk) {
		review, err := d.Review(ReviewAsked{})
		if err != nil {
			t.Fatal(err)
		}
		if review.Pieces != 6 || len(review.Players) != 3 || len(review.Removals) != 6 {
			t.Fatalf("%d pieces, %d players, %d removals", review.Pieces, len(review.Players), len(review.Removals))
		}
		p := review.Players[0]
		if p.Days != (Spread{N: 1, Low: 31, Middle: 31, High: 31}) || p.Heights.Middle != 8.3 || p.Below != 2 || p.Reasons["low"] != 2 {
			t.Errorf("days %+v, heights %+v, %d below, %v", p.Days, p.Heights, p.Below, p.Reasons)
		}
		written, err := d.PrintReview(review, Sheet{File: filepath.Join(t.TempDir(), "r.pdf")})
		if err != nil || written.Pages != 4 {
			t.Errorf("%d pages, %v: want the wall's and three players'", written.Pages, err)
		}
	})
}

// drawPlayer reads a player's steel and draws it.
func drawPlayer(d *Desk, w io.Writer, who string, o *Outlook) error {
	steel, err := d.PlayerSteel(who)
	if err != nil {
		return err
	}
	return steel.WriteSVG(w, o)
}

// TestPlayerSVG is a picture with both sides, the change height and a forecast.
func TestPlayerSVG(t *testing.T) {
	s := newSeason(t, 1)
	s.read(func(d *Desk) {
		o, err := d.look(d.Instant())
		if err != nil {
			t.Fatal(err)
		}
		var out bytes.Buffer
		if err := drawPlayer(d, &out, "2", o); err != nil {
			t.Fatal(err)
		}
		text := out.String()
		for _, want := range []string{"left ●, right ○", ">change<", "stroke-dasharray", "Tove Brimhalt 2"} {
			if !strings.Contains(text, want) {
				t.Errorf("no %q in the picture", want)
			}
		}
		for decoder := xml.NewDecoder(&out); ; {
			if _, err := decoder.Token(); errors.Is(err, io.EOF) {
				break
			} else if err != nil {
				t.Fatal(err)
			}
		}
		if err := drawPlayer(d, io.Discard, "99", nil); err == nil {
			t.Error("a player who is not there was drawn")
		}
	})
}

// TestDueOnATrip tells of those who come along, and of nobody's trip that is not there.
func TestDueOnATrip(t *testing.T) {
	s := newSeason(t, 2)
	s.at(80, func(d *Desk) error {
		from, until := theNow.AddDate(0, 0, 2), theNow.AddDate(0, 0, 6)
		_, err := d.do(deeds.AddTrip{Name: "western swing", From: inventory.Between(from, from.AddDate(0, 0, 1)), To: inventory.Between(until, until.AddDate(0, 0, 1))})
		if err != nil {
			return err
		}
		_, err = d.act(func(v inventory.View, m deeds.Moment) (deeds.Deed, error) {
			n, err := resolvePlayer(v, "3", d.Instant())
			return deeds.ChangeRoster{Trip: "western swing", Players: []inventory.Number{n}, Stay: true}, err
		})
		return err
	})
	s.read(func(d *Desk) {
		list, err := d.Due(DueAsked{Trip: "Western Swing"})
		if err != nil || len(list.Players) != 1 || list.Players[0].Sweater != 2 {
			t.Errorf("%d players, %v: want the one who comes along", len(list.Players), err)
		}
		var refusal *inventory.Refusal
		if _, err := d.Due(DueAsked{Trip: "nowhere"}); !errors.As(err, &refusal) {
			t.Errorf("a trip that is not there: %v", err)
		}
		if _, err := d.Due(DueAsked{Trip: "western swing", Players: []string{"3"}}); !errors.As(err, &refusal) {
			t.Errorf("one who stays: %v", err)
		}
	})
}

// A look that is broken off and gone on with comes to what one in one go does.
func TestLearningInStepsIsTheSame(t *testing.T) {
	s := newSeason(t, 3)
	s.read(func(d *Desk) {
		whole, err := d.look(d.Instant())
		if err != nil {
			t.Fatal(err)
		}
		var l Learning
		steps := 0
		for ; !l.Read(); steps++ {
			if err := d.learnMore(&l, 1); err != nil {
				t.Fatal(err)
			}
		}
		parts, err := l.Outlook()
		if err != nil || steps != 3 {
			t.Fatalf("%d steps, %v", steps, err)
		}
		want, _, unworked := whole.Due()
		if got, _, alsoNot := parts.Due(); len(want) == 0 || !reflect.DeepEqual(got, want) || len(unworked)+len(alsoNot) > 0 {
			t.Errorf("%+v, %v; in one go %+v, %v", got, alsoNot, want, unworked)
		}
	})
}

// What was learnt of wear holds while steel is ground and nothing else is noted: learnt anew
// it is the same. A height, or a grind of which passes or time are vague, may teach more.
func TestWhatWasLearntHoldsWhileSteelIsGround(t *testing.T) {
	s, now := newSeason(t, 3), theNow
	for name, test := range map[string]struct {
		holds bool
		deed  func(d *Desk) error
	}{
		"a grind":                    {true, func(d *Desk) error { return s.grind(d, deeds.Grind{}) }},
		"passes that nobody counted": {false, func(d *Desk) error { return s.grind(d, deeds.Grind{Unknown: true}) }},
		"a height": {false, func(d *Desk) error {
			middle := geometry.Millimetre(9.9)
			_, err := d.Measure(Caliper{Who: "3", Sides: inventory.Both[inventory.Height]{Left: &inventory.Height{Middle: &middle}}})
			return err
		}},
	} {
		t.Run(name, func(t *testing.T) {
			o := Options{Book: s.path, Now: func() time.Time { now = now.Add(time.Minute); return now }}
			d, err := Open(o)
			if err != nil {
				t.Fatal(err)
			}
			defer d.Close()
			later := now.Add(time.Hour)
			before, err := d.learnt(later)
			if err != nil {
				t.Fatal(err)
			}
			if err := test.deed(d); err != nil {
				t.Fatal(err)
			}
			if (d.options.Known.still(o, later) != nil) != test.holds {
				t.Fatalf("what was learnt holds: %v", !test.holds)
			}
			d.options.Known = new(Known)
			after, err := d.learnt(later)
			if err != nil {
				t.Fatal(err)
			}
			if same := reflect.DeepEqual(before.Roles, after.Roles); test.holds && !same {
				t.Error("learnt anew it is something else")
			}
		})
	}
}

func (s season) grind(d *Desk, grind deeds.Grind) error {
	_, err := d.Grind([]string{"3"}, nil, "", grind)
	return err
}
