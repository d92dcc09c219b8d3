package desk

import (
	"os"
	"testing"

	"steeltally/inventory"
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
		_, err := d.Trade("3", inventory.Trade{To: "Cold Sound"})
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
		return err
	})
}
