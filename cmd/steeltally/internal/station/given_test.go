package station

import (
	"slices"
	"strings"
	"testing"

	"steeltally/cmd/steeltally/internal/jig"
)

// TestAnotherLineUnderAUsedKeyWaits: it is not taken for the one that was recorded, on
// whichever screen it was typed, and done from the list it is recorded under a key of its own.
func TestAnotherLineUnderAUsedKeyWaits(t *testing.T) {
	s := newStand(t)
	shown := s.say("A 1", "17", talk{}).Talk
	first := s.say("A 2", "b6", shown)
	before := s.events()
	if again := s.say("A 2", "b6", shown); again.Tone != toneDone || s.events() != before || len(again.Talk.Waiting) != 0 {
		t.Errorf("the same line again: %s", again.Told)
	}
	other := s.say("A 2", "l2", first.Talk)
	if other.Tone != toneLook || other.Recorded || s.events() != before || !slices.Equal(other.Talk.waitingLines(), []string{"l2"}) ||
		!strings.Contains(other.Told, "stands for another entry") {
		t.Fatalf("another line: %s; %q wait", other.Told, other.Talk.waitingLines())
	}
	elsewhere := first.Talk
	elsewhere.Screen = atTags
	if other := s.say("A 2", "b6", elsewhere); other.Recorded || s.events() != before || len(other.Talk.Waiting) != 1 {
		t.Errorf("the same line on another screen: %s", other.Told)
	}
	done := s.say("A 3", "w1", other.Talk)
	if done.Tone != toneDone || s.events() != before+1 || len(done.Talk.Waiting) != 0 || !strings.Contains(done.Told, "left 2") {
		t.Errorf("done from the list: %s", done.Told)
	}
	// In another window that has the same list, it is there once; so is the line itself.
	if twice := s.say("B 1", "w1", other.Talk); twice.Tone != toneDone || s.events() != before+1 || len(twice.Talk.Waiting) != 0 {
		t.Errorf("done twice: %s", twice.Told)
	}
	if again := s.say("A 2", "b6", shown); again.Tone != toneDone || s.events() != before+1 {
		t.Errorf("the first line again: %s", again.Told)
	}
}

// TestALineDoneFromTheListIsKnownWhenItIsSentAgain: its key was given with the same line.
func TestALineDoneFromTheListIsKnownWhenItIsSentAgain(t *testing.T) {
	s := newStand(t)
	w := s.window("A")
	w.live("17", "", "23")
	w.types(0, "b6")
	w.kept[0].Typed.Card = s.about("17").Number // another card was shown
	resent := w.kept[0]
	w.sends(never)
	if got := w.talk.waitingLines(); !slices.Equal(got, []string{"b6"}) {
		t.Fatalf("%q wait", got)
	}
	w.live("w1")
	before := s.events()
	w.kept = []asked{resent}
	w.sends(never)
	if w.last.Tone != toneDone || s.events() != before || len(w.talk.Waiting) != 0 {
		t.Errorf("%s: %q wait", w.last.Told, w.talk.waitingLines())
	}
}

// TestAReadingThatIsLeftWaitsUnderItsOwnKey: the scan that dropped it was recorded under
// the line's.
func TestAReadingThatIsLeftWaitsUnderItsOwnKey(t *testing.T) {
	s := newStand(t)
	w := s.window("A")
	w.talk.State = jig.State{Grinding: true}
	w.live("17")
	w.types(0, "11.10", "23")
	s.now = s.now.Add(2 * soon)
	w.sends(never)
	if len(w.talk.Waiting) != 1 || w.talk.Waiting[0].Line != "" {
		t.Fatalf("%+v wait: %s", w.talk.Waiting, w.last.Told)
	}
	if said := w.live("w1"); strings.Contains(said.Told, "stands for another entry") || said.Recorded {
		t.Errorf("%s", said.Told)
	}
}
