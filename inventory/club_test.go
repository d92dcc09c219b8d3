package inventory

import "testing"

// In a merged book each writer keeps the digit of its own station. A copy goes on with
// that of the book it was copied from, where there is but one.
func TestEachWriterKeepsItsStation(t *testing.T) {
	home := Event{Key: Key{"aaaa", 1}, Logical: 1, Body: &ClubNoted{Name: "Terns", Station: 1}}
	away := Event{Key: Key{"bbbb", 1}, Logical: 1, Body: &ClubNoted{Name: "Terns", Station: 2}}
	for _, order := range [][]Event{{home, away}, {away, home}} {
		merged := &Ledger{}
		merged.Add(order...)
		club := ClubOf(merged)
		for writer, want := range map[Writer]int{"aaaa": 1, "bbbb": 2} {
			if got := club.StationOf(writer); got != (Station{want, true, true}) {
				t.Errorf("writer %s has station %+v, want %d", writer, got, want)
			}
		}
		if got := club.StationOf("copy"); got.Known || got.Own {
			t.Errorf("a copy of a merged book has station %+v", got)
		}
	}
	moved := home
	moved.Key.Sequence, moved.Logical, moved.Body = 2, 2, &ClubNoted{Name: "Harbour Terns", Station: 3}
	changed := &Ledger{}
	changed.Add(home, moved)
	if got := ClubOf(changed).StationOf("aaaa"); got.Digit != 3 {
		t.Errorf("a station that took another digit has %+v", got)
	}
	if got := ClubOf(changed).StationOf("copy"); got.Known {
		t.Errorf("a copy of a book whose station took another digit has %+v", got)
	}
	if club := ClubOf(changed); !club.Named("terns") || !club.Named("Harbour  Terns") || club.Named("Auks") {
		t.Errorf("names %q", club.Names)
	}
	alone := &Ledger{}
	alone.Add(away)
	if got := ClubOf(alone).StationOf("copy"); got != (Station{Digit: 2, Known: true}) {
		t.Errorf("a copy of station 2's book has station %+v", got)
	}
}
