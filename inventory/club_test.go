package inventory

import "testing"

// In a merged book each writer keeps the digit of its own station; a copy goes on with
// that of the book it was copied from.
func TestEachWriterKeepsItsStation(t *testing.T) {
	home := Event{Key: Key{"aaaa", 1}, Logical: 1, Body: &ClubNoted{Name: "Terns", Station: 1}}
	away := Event{Key: Key{"bbbb", 1}, Logical: 1, Body: &ClubNoted{Name: "Terns", Station: 2}}
	for _, order := range [][]Event{{home, away}, {away, home}} {
		merged := &Ledger{}
		merged.Add(order...)
		club := ClubOf(merged)
		for writer, want := range map[Writer]int{"aaaa": 1, "bbbb": 2, "copy": 1} {
			if got := club.StationOf(writer); got != want {
				t.Errorf("writer %s has station %d, want %d", writer, got, want)
			}
		}
	}
}
