package station

import (
	"slices"
	"strings"
	"testing"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
)

// years is how far the clock of a machine jumps that lost its time.
const years = 5 * 365 * 24 * time.Hour

// doubts counts the clocks that nobody settled.
func (s *stand) doubts() (open int) {
	s.t.Helper()
	must(s.t, s.station.book.use("", func(d *desk.Desk) error {
		state, err := d.ClockState()
		open = len(state.Doubts)
		return err
	}))
	return open
}

// standing counts the grinds of a window that were not taken back.
func (s *stand) standing(window string) (count int) {
	for _, w := range s.works(window) {
		if !w.void {
			count++
		}
	}
	return count
}

// TestAClockThatLiesFarOffIsAskedAbout: the line is recorded and flagged; yes settles it, no
// takes both back, and what is no answer leaves it in doubt and is acted on.
func TestAClockThatLiesFarOffIsAskedAbout(t *testing.T) {
	for _, c := range []struct {
		answer           string
		standing, doubts int
		tone             string
	}{{"y", 1, 0, toneDone}, {"n", 0, 0, toneDone}, {"", 1, 1, toneShown}, {"23", 1, 1, toneShown}} {
		s := newStand(t)
		w := s.window("A")
		w.live("17")
		s.now = s.now.Add(years)
		said := w.live("b6")
		if !said.Recorded || said.Tone != toneAsked || !strings.Contains(said.Told, "this machine says Mon 25 Nov 2030 07:00; the last entry was noted on Wed 26 Nov 2025 07:00. Is that right?") ||
			s.standing("A") != 1 || s.doubts() != 1 {
			t.Fatalf("%s; %d stand, %d in doubt", said.Told, s.standing("A"), s.doubts())
		}
		said = w.live(c.answer)
		if said.Tone != c.tone || said.Talk.Asked != nil || s.standing("A") != c.standing || s.doubts() != c.doubts {
			t.Errorf("%q: %s; %d stand, %d in doubt", c.answer, said.Told, s.standing("A"), s.doubts())
		}
	}
}

// TestNobodyAnswersForAClockUnseen: of lines that were kept the one that asks is recorded,
// and its question waits; what was typed behind it is no answer.
func TestNobodyAnswersForAClockUnseen(t *testing.T) {
	for _, c := range []struct {
		answer           string
		standing, doubts int
	}{{"y", 2, 0}, {"n", 1, 0}} {
		s := newStand(t)
		w := s.window("A")
		w.live("17")
		s.now = s.now.Add(years)
		w.types(0, "b6", "23", "b4")
		w.sends(func() int { return 1 }) // each answer is lost once
		if got := w.talk.waitingLines(); !slices.Equal(got, []string{"b6"}) || !w.talk.Waiting[0].Recorded || w.talk.Asked != nil || s.standing("A") != 2 || s.doubts() != 1 {
			t.Fatalf("%q wait; %d stand, %d in doubt: %s", got, s.standing("A"), s.doubts(), w.last.Waiting)
		}
		if asked := w.live("w1"); asked.Tone != toneAsked || !strings.Contains(asked.Told, "Is that right?") || len(asked.Talk.Waiting) != 1 || s.standing("A") != 2 {
			t.Fatalf("%s", asked.Told)
		}
		if said := w.live(c.answer); said.Tone != toneDone || len(said.Talk.Waiting) != 0 || s.standing("A") != c.standing || s.doubts() != c.doubts {
			t.Errorf("%q: %s; %d stand, %d in doubt", c.answer, said.Told, s.standing("A"), s.doubts())
		}
		// The last line that stands is still the one that u takes back.
		if said := w.live("u"); said.Tone != toneDone || !strings.Contains(said.Told, "23 Player 23") || s.standing("A") != c.standing-1 {
			t.Errorf("%q, then u: %s", c.answer, said.Told)
		}
	}
}

// TestALostAnswerAsksAboutTheClockAgain: sent once more, the line is there once and still
// asks; settled in another window, it asks no more.
func TestALostAnswerAsksAboutTheClockAgain(t *testing.T) {
	s := newStand(t)
	shown := s.say("A 1", "17", talk{}).Talk
	s.now = s.now.Add(years)
	first := s.say("A 2", "b6", shown)
	again := s.say("A 2", "b6", shown)
	if again.Tone != toneAsked || again.Talk.Asked == nil || again.Talk.Asked.Doubt != first.Talk.Asked.Doubt || s.standing("A") != 1 {
		t.Fatalf("%s", again.Told)
	}
	// What the other window records meanwhile is under the same clock and not asked about.
	other := s.say("B 1", "23", talk{}).Talk
	if said := s.say("B 2", "b4", other); said.Tone != toneDone || s.doubts() != 1 {
		t.Errorf("the other window: %s", said.Told)
	}
	if said := s.say("A 3", "y", again.Talk); said.Tone != toneDone || s.doubts() != 0 {
		t.Errorf("%s", said.Told)
	}
	if said := s.say("A 2", "b6", shown); said.Tone != toneDone || said.Talk.Asked != nil || s.standing("A") != 1 {
		t.Errorf("settled, and it asks: %s", said.Told)
	}
}
