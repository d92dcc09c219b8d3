package station

import (
	"slices"
	"testing"
	"time"
)

// TestAnotherClubsBookAtTheSamePort: what was typed before the station was started on another
// club's book is not done there, what was recorded there is not taken back here, and what is
// scanned from then on is done.
func TestAnotherClubsBookAtTheSamePort(t *testing.T) {
	one, other := newStand(t), newStand(t)
	w := one.window("A")
	w.live("17", "b6")
	w.types(time.Second, "23", "4006381333931", "b6")
	one.now = one.now.Add(time.Minute)
	w.sends(never)
	if got := w.talk.waitingLines(); !slices.Equal(got, []string{"4006381333931", "b6"}) {
		t.Fatalf("%q wait", got)
	}
	w.types(10*time.Second, "23", "b7")
	other.window("B").live("17", "b6", "23", "b6")
	before := other.events()
	other.now = w.now.Add(time.Hour)
	w.stand = other
	w.sends(never)
	if got := w.talk.waitingLines(); other.events() != before || !slices.Equal(got, []string{"4006381333931", "b6", "23", "b7"}) {
		t.Errorf("%d entries, %q wait", other.events()-before, got)
	}
	if w.live("u", "n"); other.events() != before || len(w.talk.Mine) != 0 {
		t.Errorf("%s", w.last.Told)
	}
	if w.live("w2", "w4"); other.events() != before {
		t.Errorf("done for nobody: %s", w.last.Told)
	}
	w.live("d1", "d2", "d3", "d4", "17", "b5")
	if got := w.talk.waitingLines(); other.events() != before+1 || len(got) != 0 {
		t.Errorf("%d entries, %q wait: %s", other.events()-before, got, w.last.Told)
	}
	if shown := one.part(w.talk).Talk; shown.About.Number != 0 || len(shown.Mine) != 0 {
		t.Errorf("of the other book: %+v", shown)
	}
}
