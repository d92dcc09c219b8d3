package desk

import (
	"os"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// A demonstration prints the last month's removed runners and the spare pairs of who is
// with the club; a traded player took his along.
func TestShowcaseIsOfTheClubAsItIs(t *testing.T) {
	s := newSeason(t, 2)
	for _, who := range []string{"2", "3"} {
		s.at(1, func(d *Desk) error {
			_, _, err := d.AddPair(who, "spare")
			return err
		})
	}
	s.at(54, func(d *Desk) error {
		_, err := d.Trade("3", deeds.Trade{To: "Cold Sound"})
		return err
	})
	s.at(55, func(d *Desk) error {
		removed, spares, err := d.lastMonth()
		if len(removed) != 4 || len(spares) != 1 {
			t.Errorf("%d removed runners, want the 4 of two changes; %d spare pairs, want 1", len(removed), len(spares))
		}
		show, err2 := d.PrintShowcase(t.TempDir())
		if err2 != nil {
			return err2
		}
		for _, file := range []string{show.Tags, show.Pairs, show.Review} {
			if info, err := os.Stat(file); err != nil || info.Size() == 0 {
				t.Errorf("%s was not printed: %v", file, err)
			}
		}
		for _, n := range spares {
			tag, err := tagOf(d, "pair", n)
			if err != nil || tag.Times != 2 {
				t.Errorf("the next tag of %s would be number %d, want 2: the first came out (%v)", n.Short(), tag.Times, err)
			}
		}
		if show.Noted != 2 {
			t.Errorf("%d entries note the tags, want one for each sort", show.Noted)
		}
		return err
	})
}

// tagOf is a piece's next tag.
func tagOf(d *Desk, template string, n inventory.Number) (tag PrintedTag, err error) {
	err = d.ask(func(v inventory.View, at time.Time) error {
		tag = printedBefore(v, template, n, at)
		return nil
	})
	return tag, err
}
