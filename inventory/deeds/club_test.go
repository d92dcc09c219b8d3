package deeds

import (
	"testing"

	"steeltally/inventory"
)

// A copy of a book in which several stations gave numbers gives none before it is said
// which one it is.
func TestACopySaysItsStation(t *testing.T) {
	home := openBook(t)
	copied := home.second()
	first := copied.give(AddPlayer{Name: "Bo Quillon", Position: "defence"})
	if first.Station() != 1 {
		t.Errorf("a copy of station 1's book gave %s", first.Short())
	}
	copied.told("as station 1, and so does the folder that it was copied from")
	two := 2
	copied.do("1 09:00", ChangeClub{Station: &two})
	copied.quiet()
	copied.give(AddPlayer{Name: "Pim Aldous", Position: "forward"})
	copied.quiet()
	home.merge(copied)

	third := home.second()
	third.writer = "cccccccccccccccc"
	third.refuses("1 10:00", AddPlayer{Name: "Kit Marrable", Position: "goalkeeper"}, "could be any of the stations 1, 2")
	third.refuses("1 10:00", ChangeClub{}, "could be any of the stations")
	ten := 10
	third.refuses("1 10:00", ChangeClub{Station: &ten}, "0 to 9")
	third.do("1 10:10", ChangeClub{Station: &two})
	third.told("another folder gave numbers as station 2")
	later := third.give(AddPlayer{Name: "Kit Marrable", Position: "goalkeeper"})
	if later.Station() != 2 {
		t.Errorf("station 2 gave %s", later.Short())
	}
	zone := "Europe/Oslo"
	third.do("1 11:00", ChangeClub{Zone: &zone})
	club := inventory.ClubOf(third)
	if station := club.StationOf(third.writer); station.Digit != 2 || !station.Own || club.Zone != zone || club.Name != "Skarn Harbour Terns" {
		t.Errorf("%+v", club)
	}
}
