package station

import (
	"bytes"
	"encoding/json"
	"flag"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/cmd/steeltally/internal/jig"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

var full = flag.Bool("full", false, "all of the large figures, which take minutes")

// stand is a station over a small club's book: 17 and 23 with a set on and one ready.
type stand struct {
	t       testing.TB
	station *Station
	server  *httptest.Server
	options desk.Options
	now     time.Time
	cookie  *http.Cookie
}

// newStand makes the club and starts a station on it, its clock a second further on
// each time that it is asked.
func newStand(t testing.TB) *stand {
	s := &stand{t: t, now: time.Date(2025, 11, 26, 7, 0, 0, 0, time.UTC)}
	s.options = desk.Options{Book: filepath.Join(t.TempDir(), "book"), Now: func() time.Time { return s.now }}
	must(t, desk.Init(s.options, deeds.FoundClub{Name: "Skarn Harbour Terns", Station: 1, Zone: "UTC"}))
	d, err := desk.Open(s.options)
	must(t, err)
	defer d.Close()
	for _, sweater := range []int{17, 23} {
		s.addPlayer(d, sweater)
	}
	return s.start()
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

func (s *stand) addPlayer(d *desk.Desk, sweater int) {
	s.t.Helper()
	player, _, err := d.AddPlayer(deeds.AddPlayer{Name: "Player " + numeral(sweater), Sweater: sweater, Position: "defence"})
	must(s.t, err)
	passes := 5
	_, err = d.NoteSpecs(player.String(), inventory.Specs{Passes: &passes})
	must(s.t, err)
	_, _, err = d.AddPair(player.String(), inventory.RoleFirst)
	must(s.t, err)
	runners, _, err := d.StockIn(deeds.StockIn{Piece: inventory.KindRunner, Model: "Skua R", Size: 280, Count: 4})
	must(s.t, err)
	for i := 0; i < 4; i += 2 {
		_, _, err = d.AddSet(player.String(), "", runners[i].String(), runners[i+1].String())
		must(s.t, err)
	}
	_, err = d.PutIn(player.String(), "A", "")
	must(s.t, err)
}

// start starts a station on the book, as after a loss of power.
func (s *stand) start() *stand {
	s.t.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	must(s.t, err)
	s.station = New(Options{Desk: s.options}, listener.Addr())
	s.server = &httptest.Server{Listener: listener, Config: &http.Server{Handler: s.station.Handler()}}
	s.server.Start()
	s.t.Cleanup(s.server.Close)
	s.cookie = &http.Cookie{Name: s.station.gate.cookie, Value: s.station.gate.secret}
	return s
}

// say sends a line as the page does.
func (s *stand) say(key, line string, t talk) answer {
	s.t.Helper()
	body, err := json.Marshal(asked{Key: key, Line: line, Talk: t})
	must(s.t, err)
	return s.post("/line", body)
}

// send brings what the page sends to the station.
func (s *stand) send(path string, body []byte) (text []byte, status int) {
	s.t.Helper()
	request, err := http.NewRequest(http.MethodPost, s.server.URL+path, bytes.NewReader(body))
	must(s.t, err)
	request.AddCookie(s.cookie)
	request.Header.Set("Sec-Fetch-Site", "same-origin")
	response, err := s.server.Client().Do(request)
	must(s.t, err)
	defer response.Body.Close()
	text, err = io.ReadAll(response.Body)
	must(s.t, err)
	return text, response.StatusCode
}

// post sends what the page sends, and reads the answer.
func (s *stand) post(path string, body []byte) answer {
	s.t.Helper()
	text, _ := s.send(path, body)
	var out answer
	if err := json.Unmarshal(text, &out); err != nil {
		s.t.Fatalf("%s: %s, %v", path, text, err)
	}
	if strings.Contains(out.Main+out.Board+out.Told, "be shown") {
		s.t.Fatalf("%s: %s %s %s", path, out.Told, out.Main, out.Board)
	}
	if spelled := spelledLine.FindString(out.Told + out.Main + out.Board + out.Waiting); spelled != "" {
		s.t.Fatalf("%s: a command line on the screen: %s", path, spelled)
	}
	return out
}

// events counts what is in the book.
func (s *stand) events() int {
	s.t.Helper()
	return bytes.Count(s.exported(), []byte("\n"))
}

// kind counts what is in the book of one kind.
func (s *stand) kind(kind string) int {
	s.t.Helper()
	return bytes.Count(s.exported(), []byte(`"kind":"`+kind+`"`))
}

func (s *stand) exported() []byte {
	s.t.Helper()
	d, err := desk.OpenToRead(s.options)
	must(s.t, err)
	defer d.Close()
	path := filepath.Join(s.t.TempDir(), "all.jsonl")
	_, err = d.Export(path)
	must(s.t, err)
	text, err := os.ReadFile(path)
	must(s.t, err)
	return text
}

func TestALineIsShownAndRecorded(t *testing.T) {
	s := newStand(t)
	shown := s.say("a", "17", talk{})
	if shown.Tone != toneShown || !strings.Contains(shown.Main, "Player 17") || !strings.Contains(shown.Board, "0 of 2") {
		t.Errorf("%+v", shown)
	}
	done := s.say("b", "", shown.Talk)
	if done.Tone != toneDone || !strings.Contains(done.Told, "left 5, right 5") || !strings.Contains(done.Board, "1 of 2") {
		t.Errorf("%+v", done)
	}
	wrong := s.say("c", "4006381333931", done.Talk)
	if wrong.Tone != toneWrong || wrong.Recorded {
		t.Errorf("%+v", wrong)
	}
}

// TestALineSentAgainIsRecordedOnce loses every answer once: what the page sends again
// does the same thing, asks nothing, and is there once.
func TestALineSentAgainIsRecordedOnce(t *testing.T) {
	s := newStand(t)
	now := talk{State: jig.State{Grinding: true}}
	before := s.events()
	for i, line := range []string{"17", "23", "R1-1-77", "l2", "c", "11.10", "11.00", "", "u"} {
		if line == "c" {
			now = s.say("show", "S1-2-69", talk{}).Talk
		}
		key := "key " + numeral(i)
		first := s.say(key, line, now)
		if first.Tone == toneWrong {
			t.Fatalf("%q: %s", line, first.Told)
		}
		again := s.say(key, line, now)
		if first.Recorded && (again.Tone != toneDone || again.Talk.About != first.Talk.About && line != "c") {
			t.Errorf("%q again: %s, %+v; first %+v", line, again.Told, again.Talk.About, first.Talk.About)
		}
		now = first.Talk
		s.now = s.now.Add(2 * time.Minute)
	}
	// three grinds, two more passes, a change of two entries, a measurement, its correction
	if got := s.events() - before; got != 8 {
		t.Errorf("%d entries, want 8", got)
	}
}

// TestAPictureIsReadAsScans sends the picture of a tag, and what is no picture of one.
func TestAPictureIsReadAsScans(t *testing.T) {
	s := newStand(t)
	var tag bytes.Buffer
	must(t, s.station.book.use("", func(d *desk.Desk) error { return d.Preview(&tag, playerRunner) }))
	for name, c := range map[string]struct {
		picture []byte
		tone    string
	}{
		"a tag": {tag.Bytes(), toneShown}, "nothing": {nil, toneWrong}, "half a picture": {tag.Bytes()[:tag.Len()/2], toneWrong},
		"a document": {[]byte("%PDF-1.7\n"), toneWrong}, "words": {[]byte("1100000177"), toneWrong},
	} {
		out := s.post("/picture", c.picture)
		if out.Tone != c.tone || (c.tone == toneShown) != (len(out.Feed) == 1 && strings.Contains(out.Feed[0], playerRunner.String())) {
			t.Errorf("%s: %+v", name, out)
		}
	}
}

// playerRunner is the left runner that the first player of a stand has on.
const playerRunner inventory.Number = 1100000177

// TestAPrinterThatIsNotThereLosesNothing: the change stands, and what to do is said.
func TestAPrinterThatIsNotThereLosesNothing(t *testing.T) {
	s := newStand(t)
	s.options.Machine = filepath.Join(t.TempDir(), "machine.toml")
	_, err := desk.AddPrinter(s.options, desk.Printer{Name: "bench", Queue: "no-such-queue", Sheet: "roll-70x35", DPI: 203})
	must(t, err)
	s.start()
	s.station.options.Printer = "bench"
	before := s.events()
	said := s.say("a", "c B", s.say("", "17", talk{}).Talk)
	if said.Tone != toneLook || !strings.Contains(said.Told, "the tags did not come out") || !strings.Contains(said.Told, "recorded") {
		t.Errorf("%s", said.Told)
	}
	if got := s.events() - before; got != 2 {
		t.Errorf("%d entries", got)
	}
	waiting := s.say("", "zzz", talk{Screen: atTags})
	if waiting.Talk.Screen != atJig {
		t.Errorf("a line that is none of the screen's: %+v", waiting.Talk)
	}
	if list := s.part(talk{Screen: atTags}); !strings.Contains(list.Main, "R1-1-77") {
		t.Errorf("what waits for a tag: %s", list.Main)
	}
}

// part asks for a screen.
func (s *stand) part(t talk) answer {
	s.t.Helper()
	body, err := json.Marshal(asked{Talk: t})
	must(s.t, err)
	return s.post("/part", body)
}

// A refusal's hint names the keys of the jig, and no command line.
func TestHintsNameKeys(t *testing.T) {
	s := newStand(t)
	d, err := desk.Open(s.options)
	must(t, err)
	player, _, err := d.AddPlayer(deeds.AddPlayer{Name: "Player 31", Sweater: 31, Position: "defence"})
	must(t, err)
	_, _, err = d.AddPair(player.String(), inventory.RoleFirst)
	must(t, err)
	must(t, d.Close())
	refused := s.say("key", "", s.say("", "31", talk{}).Talk)
	if refused.Tone != toneWrong || !strings.Contains(refused.Told, "put a set on first: scan 31, then c A<") {
		t.Errorf("%s", refused.Told)
	}
}

// TestEveryScreenIsDrawn draws each with what a small club has.
func TestEveryScreenIsDrawn(t *testing.T) {
	s := newStand(t)
	for _, screen := range []talk{
		{Screen: atJig}, {Screen: atDue}, {Screen: atSpares}, {Screen: atTrip}, {Screen: atTags}, {Screen: atPiece, Piece: "17"},
		{Screen: atTest}, {Screen: atTest, Heard: []jig.Heard{{Typed: "0123456789", Ends: []string{"Enter"}}}}, {Screen: atBin}, {Screen: atBin, Bin: []string{"1100000177"}}, {Screen: "no such screen"},
	} {
		out := s.part(screen)
		if out.Main == "" || out.Board == "" || out.Tone == toneWrong || strings.Contains(out.Main, "NOT RECORDED") {
			t.Errorf("%+v: %+v", screen, out)
		}
	}
}

// What an older record or another book holds steers no screen.
func TestTextsSteerNoScreen(t *testing.T) {
	s := New(Options{}, &net.TCPAddr{})
	html := s.render("told", told{Tone: toneShown, Lines: []string{"Ansgar\x1b[2J\u202e\u009b\u200bLindqvarn"}})
	if unseen, found := inventory.Unseen(strings.ReplaceAll(html, "\n", "")); found || !strings.Contains(html, `Ansgar\x1b[2J\u202e`) {
		t.Errorf("%q is shown: %s", unseen, html)
	}
}

func numeral(n int) string { return strconv.Itoa(n) }
