package station

import (
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
)

// trap makes a step fail once, as a fault of the program does.
type trap struct{ set bool }

func (t *trap) step() {
	if t.set {
		t.set = false
		var none []int
		none[1]++
	}
}

// trapped is a stand whose clock, or whose question for room on the disk, is at fault when
// its trap is set.
func trapped(t *testing.T) (s *stand, clock, room *trap) {
	s, clock, room = newStand(t), &trap{}, &trap{}
	s.options.Machine = filepath.Join(t.TempDir(), "machine.toml")
	s.options.Now = func() time.Time { clock.step(); return s.now }
	s.options.Room = func(string) (uint64, error) { room.step(); return 1 << 40, nil }
	return s.start(), clock, room
}

// free checks that nobody holds the book.
func (s *stand) free() {
	s.t.Helper()
	d, err := desk.Open(s.options)
	if err != nil {
		s.t.Fatalf("the station keeps the book: %v", err)
	}
	must(s.t, d.Close())
}

// kept is what was kept to find faults.
func (s *stand) kept() string {
	s.t.Helper()
	text, err := os.ReadFile(filepath.Join(filepath.Dir(s.options.Machine), "faults.txt"))
	must(s.t, err)
	return string(text)
}

// A fault before anything is recorded is told as such, and the window goes on with what it
// remembered.
func TestAFaultBeforeTheEntry(t *testing.T) {
	s, clock, _ := trapped(t)
	before := s.say("a", "17", talk{Screen: atJig})
	clock.set = true
	out := s.say("b", "", before.Talk)
	if out.Tone != toneWrong || out.Recorded || !strings.Contains(out.Told, "fault in this program") || strings.Contains(out.Told, ".go:") {
		t.Errorf("%+v", out)
	}
	if !slices.Equal(out.Talk.waitingLines(), []string{""}) || !strings.Contains(out.Waiting, "d1") {
		t.Errorf("the line is gone: %s", out.Waiting)
	}
	if out.Talk.About != before.Talk.About {
		t.Errorf("the window forgot whose card it shows: %+v", out.Talk.About)
	}
	s.free()
	if kept := s.kept(); !strings.Contains(kept, "index out of range") || !strings.Contains(kept, "trap).step") {
		t.Errorf("that does not find the fault: %s", kept)
	}
	if out = s.say("c", "", out.Talk); out.Tone != toneDone || !out.Recorded {
		t.Errorf("after the fault: %+v", out)
	}
}

// A fault after the entry never says that it was not recorded.
func TestAFaultAfterTheEntry(t *testing.T) {
	s, _, room := trapped(t)
	out := s.say("a", "17", talk{Screen: atJig})
	room.set = true
	out = s.say("b", "", out.Talk)
	if out.Tone != toneLook || !out.Recorded || !strings.Contains(out.Told, "grind on set A") || !strings.Contains(out.Told, "fault in this program") {
		t.Errorf("%+v", out)
	}
	s.free()
	if out = s.say("b", "", out.Talk); !out.Recorded {
		t.Errorf("sent again: %+v", out)
	}
	d, err := desk.OpenToRead(s.options)
	must(t, err)
	defer d.Close()
	board, err := d.Board()
	must(t, err)
	if len(board) != 2 || !board[0].Done {
		t.Errorf("%+v", board)
	}
}

// A part that can't be drawn leaves the others.
func TestAFaultInOnePartOfTheScreen(t *testing.T) {
	s, _, _ := trapped(t)
	html := s.station.drawn(func() (string, error) { (&trap{true}).step(); return "", nil })
	if !strings.Contains(html, "fault in this program") {
		t.Errorf("%s", html)
	}
}

// What fails outside the book is answered in plain words, too.
func TestAFaultInAHandler(t *testing.T) {
	s, _, _ := trapped(t)
	handler := s.station.recovering(http.HandlerFunc(func(http.ResponseWriter, *http.Request) { (&trap{true}).step() }))
	answer := httptest.NewRecorder()
	handler.ServeHTTP(answer, httptest.NewRequest(http.MethodGet, "/plot/x", nil))
	if text := answer.Body.String(); answer.Code != http.StatusInternalServerError || !strings.Contains(text, "fault in this program") || strings.Contains(text, ".go:") {
		t.Errorf("%d %s", answer.Code, text)
	}
	if kept := s.kept(); !strings.Contains(kept, "the station, GET /plot/x") {
		t.Errorf("%s", kept)
	}
}
