package station

import (
	"strings"
	"testing"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/cmd/steeltally/internal/jig"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// TestKeysDoNothingOnAnotherScreen sends each key of the jig to every other screen, with
// somebody shown at the jig, each scan grinding, and a question that waits there.
func TestKeysDoNothingOnAnotherScreen(t *testing.T) {
	s := newStand(t)
	screens := s.otherScreens()
	at := s.say("", "g", s.say("", "17", talk{}).Talk).Talk
	at.Asked = &jig.Question{Sort: "again", Line: "17"}
	before := s.events()
	for _, screen := range screens {
		screen.State = at.State
		for _, key := range []string{"g", "h", "i", "e", "el", "er", "x", "m", "m 11.1 11.0", "c", "c B", "l2", "r1", "b6", "?", "ed", "]C1g"} {
			said := s.say("", key, screen)
			if said.Recorded || said.Tone != toneWrong || said.Talk.Screen != screen.Screen || said.Talk.Trunk != screen.Trunk || len(said.Talk.Bin) > 0 {
				t.Errorf("%s at %s: %s %+v", key, screen.Screen, said.Told, said.Talk)
			}
		}
		for _, key := range []string{"y", "t", "t1", "o", "h ", "pl", "Pla", "player 17"} {
			if said := s.say("", key, screen); said.Recorded {
				t.Errorf("%s at %s recorded: %s", key, screen.Screen, said.Told)
			}
		}
	}
	for _, key := range []string{"t", "t1", "o", "n", "pl", "h", "Pla", "player 17"} {
		if said := s.say("", key, talk{State: jig.State{Grinding: true}, Screen: atJig}); said.Recorded {
			t.Errorf("%s at the jig recorded: %s", key, said.Told)
		}
	}
	if got := s.events() - before; got != 0 {
		t.Errorf("%d entries, want none", got)
	}
}

// otherScreens are all but the jig, a trip with its trunk open among them.
func (s *stand) otherScreens() []talk {
	s.t.Helper()
	var trunk inventory.Number
	must(s.t, s.station.book.use("", func(d *desk.Desk) (err error) {
		if _, err = d.AddTrip("Rime Point", "2025-11-27", "2025-11-28"); err != nil {
			return err
		}
		if _, _, err = d.AddPair("17", inventory.RoleSpare); err != nil {
			return err
		}
		trunk, _, err = d.NoteContainer(deeds.NoteContainer{Container: inventory.KindTrunk, Name: "Trunk one"})
		return err
	}))
	return []talk{
		{Screen: atDue}, {Screen: atSpares}, {Screen: atTags}, {Screen: atPiece, Piece: "17"}, {Screen: atTest}, {Screen: atBin},
		{Screen: atTrip}, {Screen: atTrip, Trip: "Rime Point"}, {Screen: atTrip, Trip: "Rime Point", Trunk: trunk.String()},
	}
}

// TestATripTakesNoNameForAPair says who was named; his number packs the pair into the same
// trunk.
func TestATripTakesNoNameForAPair(t *testing.T) {
	s := newStand(t)
	screens := s.otherScreens()
	at := screens[len(screens)-1]
	named := s.say("", "player 17", at)
	if named.Recorded || named.Talk.Trunk != at.Trunk || !strings.Contains(named.Told, "a name alone records nothing; player 17 is 17 Player 17") {
		t.Errorf("%+v", named)
	}
	if packed := s.say("", "17", named.Talk); !packed.Recorded {
		t.Errorf("%s", packed.Told)
	}
}
