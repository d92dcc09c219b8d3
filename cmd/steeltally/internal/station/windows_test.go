package station

import (
	"strings"
	"testing"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
)

// TestWindowsShareTheClock: what one window began runs in the other, until one of them
// says the end of it or takes it back.
func TestWindowsShareTheClock(t *testing.T) {
	s := newStand(t)
	looks := func() *desk.Clock { return s.part(talk{}).Talk.Crisis }
	one := s.say("a", "17", talk{}).Talk
	one = s.say("b", "er", one).Talk
	began := one.Crisis
	if other := looks(); began == nil || other == nil || !other.Same(*began) {
		t.Fatalf("%+v in one window, %+v in the other", began, other)
	}
	s.now = s.now.Add(4 * time.Hour) // the game is over
	if other := looks(); other != nil {
		t.Errorf("the clock runs for ever: %+v", other)
	}
	s.now = s.now.Add(-4 * time.Hour)
	undone := s.say("c", "u", one).Talk
	if undone.Crisis != nil || looks() != nil {
		t.Errorf("taken back, and the clock runs: %+v", undone.Crisis)
	}
	again := s.say("d", "er", undone)
	for i, line := range []string{"ed", "mended", "nothing", "", "n"} {
		s.now = s.now.Add(time.Minute)
		again = s.say("end "+numeral(i), line, again.Talk)
	}
	if again.Talk.Crisis != nil || looks() != nil {
		t.Errorf("%s, and the clock runs: %+v", again.Told, again.Talk.Crisis)
	}
}

// TestTwoClocks: with two players off the ice, what is asked is about who was scanned.
func TestTwoClocks(t *testing.T) {
	s := newStand(t)
	first := s.say("b", "er", s.say("a", "17", talk{}).Talk)
	s.now = s.now.Add(time.Minute)
	second := s.say("d", "el", s.say("c", "23", first.Talk).Talk)
	if second.Talk.Crisis.Who != "23" {
		t.Errorf("the clock of %s is shown", second.Talk.Crisis.Who)
	}
	back := s.say("e", "17", second.Talk)
	if asked := s.say("f", "ed", back.Talk); back.Talk.Crisis.Who != "17" || !strings.Contains(asked.Told, "17 right: what was done?") {
		t.Errorf("%s: %s", back.Talk.Crisis.Who, asked.Told)
	} else {
		for i, line := range []string{"nothing", "", ""} {
			asked = s.say("end "+numeral(i), line, asked.Talk)
		}
		if asked.Talk.Crisis == nil || asked.Talk.Crisis.Who != "23" {
			t.Errorf("%s: the other clock is not shown: %+v", asked.Told, asked.Talk.Crisis)
		}
	}
}

// TestEachWindowTakesBackItsOwn: what another window recorded since stays.
func TestEachWindowTakesBackItsOwn(t *testing.T) {
	s := newStand(t)
	one := s.say("b", "", s.say("a", "17", talk{}).Talk)
	other := s.say("d", "b6", s.say("c", "23", talk{}).Talk)
	if back := s.say("e", "u", one.Talk); !strings.Contains(back.Told, "17 Player 17") || len(back.Talk.Mine) != 0 {
		t.Errorf("%+v", back)
	}
	if back := s.say("f", "u", other.Talk); !strings.Contains(back.Told, "23 Player 23") {
		t.Errorf("%+v", back)
	}
	// Both took back what the other one still knows of.
	if stale := s.say("g", "u", one.Talk); stale.Tone != toneWrong || !strings.Contains(stale.Told, "already") || len(stale.Talk.Mine) != 0 {
		t.Errorf("%+v", stale)
	}
}

// TestHeightsAreAskedFor: m alone asks, a scan instead of an answer is a scan.
func TestHeightsAreAskedFor(t *testing.T) {
	s := newStand(t)
	asked := s.say("b", "m", s.say("a", "17", talk{}).Talk)
	if asked.Tone != toneAsked {
		t.Fatalf("%+v", asked)
	}
	if said := s.say("c", "11.10 11.00", asked.Talk); said.Tone != toneDone || !strings.Contains(said.Told, "11.10") {
		t.Errorf("%+v", said)
	}
	if said := s.say("d", "23", asked.Talk); said.Tone != toneShown || !strings.Contains(said.Main, "Player 23") {
		t.Errorf("%+v", said)
	}
}

// TestASlipIsAskedAbout: what can hardly be is recorded only where a person keeps it.
func TestASlipIsAskedAbout(t *testing.T) {
	s := newStand(t)
	now := s.say("b", "m 11.10 11.00", s.say("a", "17", talk{}).Talk).Talk
	before := s.events()
	asked := s.say("c", "m 11.10 14.00", now)
	if asked.Tone != toneAsked || !strings.Contains(asked.Told, "higher than last time") {
		t.Fatalf("%+v", asked)
	}
	if said := s.say("d", "n", asked.Talk); said.Recorded || s.events() != before {
		t.Errorf("%+v", said)
	}
	if said := s.say("e", "y", asked.Talk); said.Tone != toneDone || !strings.Contains(said.Told, "kept as read") || s.events() != before+1 {
		t.Errorf("%+v", said)
	}
	if low := s.say("low", "m 5.50 11.00", now); low.Tone != toneAsked || !strings.Contains(low.Told, "far lower than last time") {
		t.Errorf("%+v", low)
	}
	// One runner has one height.
	runner := s.say("f", playerRunner.Short(), talk{}).Talk
	if said := s.say("g", "11.05", s.say("h", "m", runner).Talk); said.Tone != toneDone || s.events() != before+2 {
		t.Errorf("%+v", said)
	}
}

// TestEnterEndsTheWaitForASet: who thinks better of a change grinds nothing by it.
func TestEnterEndsTheWaitForASet(t *testing.T) {
	s := newStand(t)
	waiting := s.say("b", "c", s.say("a", "17", talk{}).Talk)
	before := s.events()
	if said := s.say("c", "", waiting.Talk); !waiting.Talk.Changing || said.Talk.Changing || said.Recorded || s.events() != before {
		t.Errorf("%+v, then %+v", waiting, said)
	}
}

// TestAnswersThatAreNone: what is no answer is asked again, and what was said is recorded
// of the side that it was about.
func TestAnswersThatAreNone(t *testing.T) {
	s := newStand(t)
	now := s.say("b", "er", s.say("a", "17", talk{}).Talk)
	s.now = s.now.Add(time.Minute)
	now = s.say("d", "el", now.Talk)
	before := s.events()
	for i, line := range []string{"ed", "mended", "hodler", "nothing", "117"} {
		if now = s.say("ask "+numeral(i), line, now.Talk); now.Tone != toneAsked || s.events() != before {
			t.Fatalf("%s: %s", line, now.Told)
		}
	}
	if now = s.say("sure", "2", now.Talk); now.Tone != toneAsked || !strings.Contains(now.Told, "did somebody look") || s.events() != before {
		t.Errorf("lifted by a slip: %s", now.Told)
	}
	now = s.say("looked", "y", now.Talk)
	if now = s.say("end", playerRunner.Short(), now.Talk); now.Tone != toneDone || now.Talk.Crisis == nil || now.Talk.Crisis.Side != "right" {
		t.Errorf("%s, then %+v", now.Told, now.Talk.Crisis)
	}
}

// TestTheSameSideBreaksAgain: an emergency that has ended is another one's past.
func TestTheSameSideBreaksAgain(t *testing.T) {
	s := newStand(t)
	now := s.say("b", "er", s.say("a", "17", talk{}).Talk)
	for i, line := range []string{"ed", "mended", "", ""} {
		now = s.say("end "+numeral(i), line, now.Talk)
	}
	s.now = s.now.Add(40 * time.Minute)
	before := s.events()
	if now = s.say("again", "er", now.Talk); now.Talk.Crisis == nil || s.events() != before+1 {
		t.Errorf("%s: %+v", now.Told, now.Talk.Crisis)
	}
}

// TestAMisreadScanIsNobody: what follows a scan that could not be read is about nobody.
func TestAMisreadScanIsNobody(t *testing.T) {
	s := newStand(t)
	now := s.say("b", "", s.say("a", "17", talk{}).Talk)
	s.now = s.now.Add(2 * time.Minute)
	wrong := s.say("c", "7100000265", now.Talk)
	before := s.events()
	if said := s.say("d", "", wrong.Talk); wrong.Tone != toneWrong || said.Recorded || s.events() != before {
		t.Errorf("%s, then %s", wrong.Told, said.Told)
	}
}
