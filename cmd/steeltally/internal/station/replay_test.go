package station

import (
	"bytes"
	"encoding/json"
	"net/http"
	"slices"
	"strings"
	"testing"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/cmd/steeltally/internal/jig"
	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// window is what the page keeps: lines that were typed, and what it shows.
type window struct {
	*stand
	name  string
	talk  talk
	kept  []asked
	typed int
	last  answer
}

func (s *stand) window(name string) *window {
	return &window{stand: s, name: name, talk: talk{Screen: atJig}}
}

// types keeps lines, typed some seconds apart from each other.
func (w *window) types(apart time.Duration, lines ...string) {
	for _, line := range lines {
		w.now = w.now.Add(apart)
		w.typed++
		saw := typed{At: w.now, Turn: w.talk.Turn, Book: w.talk.Book, Screen: w.talk.Screen, Card: w.talk.About.Number, Rows: w.talk.Rows}
		w.kept = append(w.kept, asked{Key: w.name + " " + numeral(w.typed), Line: line, Typed: &saw})
	}
}

// sends sends all that was kept; lost tells how often the answer to a line gets lost.
func (w *window) sends(lost func() int) {
	w.t.Helper()
	for len(w.kept) > 0 {
		for range 1 + lost() {
			w.sendFirst()
		}
		w.talk, w.kept = w.last.Talk, w.kept[1:]
	}
}

func (w *window) sendFirst() {
	w.t.Helper()
	in := w.kept[0]
	in.Talk, in.Typed.Sent, in.Typed.More = w.talk, w.now, len(w.kept) > 1
	body, err := json.Marshal(in)
	must(w.t, err)
	w.last = w.post("/line", body)
}

func never() int { return 0 }

// live types lines before a station that answers at once.
func (w *window) live(lines ...string) answer {
	w.t.Helper()
	for _, line := range lines {
		w.types(0, line)
		w.sends(never)
	}
	return w.last
}

// goes turns to another screen.
func (w *window) goes(screen string) {
	w.t.Helper()
	w.talk.Screen = screen
	w.talk = w.part(w.talk).Talk
}

// work is a grind as it stands in the record.
type work struct {
	player inventory.Number
	at     time.Time
	key    string // of the line
	void   bool
}

// works lists the grinds of a record that were noted by lines of a window.
func (s *stand) works(window string) []work {
	s.t.Helper()
	var all []work
	keys := map[inventory.Key]int{}
	for line := range bytes.Lines(s.exported()) {
		var e inventory.Event
		must(s.t, json.Unmarshal(line, &e))
		for _, voided := range inventory.Voids(&e) {
			if at, ok := keys[voided]; ok {
				all[at].void = true
			}
		}
		if ground, ok := e.Body.(*inventory.Ground); ok && strings.HasPrefix(e.Ticket, window+" ") {
			keys[e.Key] = len(all)
			all = append(all, work{ground.Player, e.Happened.Start, e.Ticket, false})
		}
	}
	return all
}

// waitingLines are the lines of the list, in order.
func (t talk) waitingLines() []string {
	lines := make([]string, len(t.Waiting))
	for i, line := range t.Waiting {
		lines[i] = line.Line
	}
	return lines
}

// more adds players, and sets for 17 up to G, and measures what 17 has on.
func (s *stand) more(sweaters ...int) {
	s.t.Helper()
	must(s.t, s.station.book.use("", func(d *desk.Desk) error {
		for _, sweater := range sweaters {
			s.addPlayer(d, sweater)
		}
		low := geometry.Millimetre(8)
		_, err := d.NoteSpecs("17", inventory.Specs{ChangeHeight: &low})
		must(s.t, err)
		for range 5 {
			runners, _, err := d.StockIn(deeds.StockIn{Piece: inventory.KindRunner, Model: "Skua R", Size: 280, Count: 2})
			must(s.t, err)
			_, _, err = d.AddSet("17", "", runners[0].String(), runners[1].String())
			must(s.t, err)
		}
		return nil
	}))
	setUp := s.window("set-up")
	for _, line := range []string{"17", "m 11.10 11.00", ""} {
		if said := setUp.live(line); said.Tone == toneWrong || said.Tone == toneAsked {
			s.t.Fatalf("%q: %s", line, said.Told)
		}
	}
	s.now = s.now.Add(time.Hour)
}

// TestKeptLinesAreDoneAsMeant: a change, a player and a pass are typed while the station
// is away. The change asks, so it waits; the pass is the other player's, as of then.
func TestKeptLinesAreDoneAsMeant(t *testing.T) {
	s := newStand(t)
	s.more(5)
	w := s.window("A")
	w.live("5", "", "17")
	s.now = s.now.Add(time.Hour)
	five, before, began := s.about("5").Number, s.events(), s.now
	w.types(10*time.Second, "c G", "5", "l1")
	s.now = s.now.Add(17 * time.Minute)
	w.sends(never)
	works := s.works("A")
	if pass := works[len(works)-1]; s.events() != before+1 || pass != (work{five, began.Add(30 * time.Second), "A 6", false}) {
		t.Errorf("%d entries; %+v", s.events()-before, works)
	}
	if got := w.talk.waitingLines(); !slices.Equal(got, []string{"c G"}) || w.talk.Asked != nil {
		t.Fatalf("%q wait; %+v is asked", got, w.talk.Asked)
	}
	for _, want := range []string{"typed " + began.Add(10*time.Second).Format("15:04") + " for 17 Player 17", "c G", "why does it come off?", "w1", "d1"} {
		if !strings.Contains(w.last.Waiting, want) {
			t.Errorf("%q is not said: %s", want, w.last.Waiting)
		}
	}
	asked := w.live("w1")
	if asked.Tone != toneAsked || len(asked.Talk.Waiting) != 1 {
		t.Fatalf("%s", asked.Told)
	}
	if done := w.live("rotate"); done.Tone != toneDone || len(done.Talk.Waiting) != 0 || !bytes.Contains(s.exported(), []byte(began.Add(10*time.Second).Format(time.RFC3339))) {
		t.Errorf("%s; %q wait", done.Told, done.Talk.waitingLines())
	}
}

// TestAGrindIsNoAnswer: a second grind of 10 asks, and what was typed behind it was typed
// before anybody saw the question.
func TestAGrindIsNoAnswer(t *testing.T) {
	s := newStand(t)
	s.more(10)
	w := s.window("A")
	w.live("g")
	ten, other, began := s.about("10").Number, s.about("23").Number, s.now
	w.types(40*time.Second, "10", "10", "23")
	w.types(10*time.Minute, "10")
	s.now = s.now.Add(time.Hour)
	w.sends(func() int { return 1 })
	want := []work{{ten, began.Add(40 * time.Second), "A 2", false}, {other, began.Add(2 * time.Minute), "A 4", false}, {ten, began.Add(12 * time.Minute), "A 5", false}}
	if got := s.works("A"); !slices.Equal(got, want) {
		t.Errorf("%+v; want %+v", got, want)
	}
	if got := w.talk.waitingLines(); !slices.Equal(got, []string{"10"}) {
		t.Fatalf("%q wait", got)
	}
	w.live("w1", "y")
	again := work{ten, began.Add(80 * time.Second), "", false}
	got := s.works("A")
	if last := got[len(got)-1]; len(got) != 4 || last.player != again.player || !last.at.Equal(again.at) || len(w.talk.Waiting) != 0 {
		t.Errorf("%+v; %q wait", got, w.talk.waitingLines())
	}
}

// TestWhatBuildsOnALineWaitsWithIt: a misread scan waits, and so do the keys about it,
// until something else is scanned.
func TestWhatBuildsOnALineWaitsWithIt(t *testing.T) {
	s := newStand(t)
	w := s.window("A")
	w.live("17", "")
	before := s.events()
	s.now = s.now.Add(time.Hour)
	w.types(5*time.Second, "4006381333931", "", "l1", "u", "11.10", "c", "S1-2-69", "m", "11.1 11.0", "g", "23", "u")
	s.now = s.now.Add(time.Hour)
	w.sends(never)
	want := []string{"4006381333931", "", "l1", "u", "11.10", "c", "S1-2-69", "m", "11.1 11.0"}
	if got := w.talk.waitingLines(); !slices.Equal(got, want) {
		t.Errorf("%q wait", got)
	}
	// The mode was turned, 23 was ground in it, and that was taken back.
	works := s.works("A")
	if !w.talk.Grinding || s.events() != before+2 || len(works) != 2 || !works[1].void || works[0].void {
		t.Errorf("%d entries: %+v", s.events()-before, works)
	}
	w.live("17")
	for _, line := range w.talk.Waiting {
		w.live("d" + numeral(line.No))
	}
	if len(w.talk.Waiting) != 0 || strings.Contains(w.last.Waiting, "<section") {
		t.Errorf("%q wait: %s", w.talk.waitingLines(), w.last.Waiting)
	}
}

// TestALineTypedInTheDarkIsDoneForWhoIsShown: what a line was about is not known; a person
// who looks has it done for who is on the card.
func TestALineTypedInTheDarkIsDoneForWhoIsShown(t *testing.T) {
	s := newStand(t)
	w := s.window("A")
	s.now = s.now.Add(time.Hour)
	w.types(10*time.Second, "nobody", "")
	typed := s.now
	s.now = s.now.Add(time.Hour)
	w.sends(never)
	if got := w.talk.waitingLines(); !slices.Equal(got, []string{"nobody", ""}) || !strings.Contains(w.last.Waiting, "after nobody: Enter") {
		t.Fatalf("%q wait: %s", got, w.last.Waiting)
	}
	w.types(0, "17", "w2") // not looked at 17 yet
	w.sends(never)
	if len(w.talk.Waiting) != 2 || len(s.works("A")) != 0 {
		t.Errorf("%s", w.last.Told)
	}
	w.live("w2")
	if works := s.works("A"); len(works) != 1 || works[0].player != s.about("17").Number || !works[0].at.Equal(typed) {
		t.Errorf("%+v", works)
	}
	// Done in a window that took the same line over, it is there once.
	other := s.window("B")
	other.talk = w.talk
	other.talk.Waiting = []waiting{{No: 2, Key: "A 2", Screen: atJig, About: other.talk.About, Typed: typed}}
	if said := other.live("w2"); said.Tone != toneDone || len(s.works("A")) != 1 {
		t.Errorf("%s: %+v", said.Told, s.works("A"))
	}
}

// TestAQuestionThatWasSeenIsAnswered, also when the station was lost in between.
func TestAQuestionThatWasSeenIsAnswered(t *testing.T) {
	s := newStand(t)
	w := s.window("A")
	if asked := w.live("17", "", ""); asked.Tone != toneAsked {
		t.Fatalf("%s", asked.Told)
	}
	w.types(10*time.Second, "y")
	typed := s.now
	s.now = s.now.Add(time.Hour)
	w.sends(func() int { return 1 })
	if works := s.works("A"); len(works) != 2 || !works[1].at.Equal(typed) || len(w.talk.Waiting) != 0 {
		t.Errorf("%+v; %q wait", works, w.talk.waitingLines())
	}
	// Typed before it was shown, the same is no answer: the question waits with its line.
	s.now = s.now.Add(time.Hour)
	w.live("23", "")
	w.types(0, "")
	w.types(0, "y")
	w.kept[1].Typed.More = false
	behind := w.kept[1:]
	w.kept = w.kept[:1]
	w.sends(never)
	w.kept = behind
	w.sends(never)
	if got := w.talk.waitingLines(); !slices.Equal(got, []string{"", "y"}) || len(s.works("A")) != 3 {
		t.Errorf("%q wait: %+v", got, s.works("A"))
	}
}

// TestATimeThatCantBeIsAskedAbout: a clock that was set while lines were kept dates none.
func TestATimeThatCantBeIsAskedAbout(t *testing.T) {
	s := newStand(t)
	w := s.window("A")
	w.live("17")
	before := s.events()
	for _, clock := range []time.Duration{-time.Hour, 400 * 24 * time.Hour} {
		w.types(0, "")
		w.kept[0].Typed.At = s.now.Add(-clock)
		w.sends(never)
	}
	if got := w.talk.waitingLines(); !slices.Equal(got, []string{"", ""}) || s.events() != before {
		t.Errorf("%q wait", got)
	}
	w.live("w1")
	if works := s.works("A"); len(works) != 1 || !works[0].at.Equal(s.now) {
		t.Errorf("%+v", works)
	}
	// Typed moments ago is now.
	s.now = s.now.Add(time.Hour)
	w.types(0, "")
	s.now = s.now.Add(2 * time.Second)
	w.sends(never)
	if works := s.works("A"); len(works) != 2 || !works[1].at.Equal(s.now) {
		t.Errorf("%+v", works)
	}
}

// TestAnotherProgramHasTheBook: a line is not answered, so the window keeps it.
func TestAnotherProgramHasTheBook(t *testing.T) {
	s := newStand(t)
	other, err := desk.Open(s.options)
	must(t, err)
	body, err := json.Marshal(asked{Key: "A 1", Line: "17", Talk: talk{State: jig.State{Grinding: true}}})
	must(t, err)
	for _, path := range []string{"/line", "/part"} {
		request, err := http.NewRequest(http.MethodPost, s.server.URL+path, bytes.NewReader(body))
		must(t, err)
		request.AddCookie(s.cookie)
		response, err := s.server.Client().Do(request)
		must(t, err)
		var said bytes.Buffer
		said.ReadFrom(response.Body)
		response.Body.Close()
		if response.StatusCode != http.StatusServiceUnavailable || !strings.Contains(said.String(), "in use") || !strings.Contains(said.String(), "kept") {
			t.Errorf("%s: %d: %s", path, response.StatusCode, &said)
		}
	}
	must(t, other.Close())
	if said := s.post("/line", body); said.Tone != toneDone || len(s.works("A")) != 1 {
		t.Errorf("%s", said.Told)
	}
}

// TestKeysOfTheJigTypedLiveElsewhere: nothing is done, shown or asked by them.
func TestKeysOfTheJigTypedLiveElsewhere(t *testing.T) {
	s := newStand(t)
	keys := []string{"l1", "r2", "b6", "x", "m", "m 11.1 11.0", "11.10", "c", "c B", "i", "e", "el", "er", "h", "?", "g"}
	for _, screen := range []string{atDue, atSpares, atTrip, atBin, atTags, atPiece} {
		w := s.window(screen)
		w.live("17")
		w.goes(screen)
		before, shown := s.events(), w.talk
		for _, line := range keys {
			said := w.live(line)
			if said.Tone != toneWrong || s.events() != before || said.Talk.Screen != screen || said.Talk.About != shown.About || said.Talk.Asked != nil {
				t.Errorf("%s on %s: %s, then %s", line, screen, said.Told, said.Talk.Screen)
			}
		}
	}
	tags := s.window("rows")
	tags.goes(atTags)
	if said := tags.live("17"); said.Tone != toneWrong || said.Talk.Screen != atTags {
		t.Errorf("a row that was not shown: %s", said.Told)
	}
	// What the jig asked is not answered on a screen that does not show it.
	w := s.window("asked")
	w.live("17", "", "")
	before := s.events()
	w.goes(atDue)
	if said := w.live("y"); s.events() != before || !slices.Equal(said.Talk.waitingLines(), []string{""}) {
		t.Errorf("%s", said.Told)
	}
}

// TestALineThatWaitsInTwoWindowsIsDoneOnce: a line whose question is answered in one window
// is known in the other; and it is the grind that it was, though scans grind in none of them.
func TestALineThatWaitsInTwoWindowsIsDoneOnce(t *testing.T) {
	s := newStand(t)
	w := s.window("A")
	w.live("g")
	w.types(10*time.Second, "17", "17")
	s.now = s.now.Add(time.Hour)
	w.sends(never)
	if got := w.talk.waitingLines(); !slices.Equal(got, []string{"17"}) || s.standing("A") != 1 {
		t.Fatalf("%q wait; %d stand", got, s.standing("A"))
	}
	for _, name := range []string{"B", "C"} {
		other := s.window(name)
		other.talk.Waiting, other.talk.Waits = w.talk.Waiting, w.talk.Waits
		if asked := other.live("w1"); name == "B" && asked.Tone != toneAsked {
			t.Errorf("%s: %s", name, asked.Told)
		}
		if other.talk.Asked != nil {
			other.live("y")
		}
		if s.standing("A") != 2 || s.standing(name) != 0 || len(other.talk.Waiting) != 0 || other.talk.Grinding {
			t.Errorf("%s: %d stand, %d of its own; %q wait; %s", name, s.standing("A"), s.standing(name), other.talk.waitingLines(), other.last.Told)
		}
	}
}

// TestWhatIsSaidOfTheClockIsNoWork: u takes back what was done before the answer, also where
// the answer to the answer got lost.
func TestWhatIsSaidOfTheClockIsNoWork(t *testing.T) {
	for _, lost := range []int{0, 1} {
		s := newStand(t)
		w := s.window("A")
		w.live("17")
		s.now = s.now.Add(years)
		w.live("b6")
		w.types(0, "y")
		w.sends(func() int { return lost })
		if said := w.live("u"); s.standing("A") != 0 || s.doubts() != 0 {
			t.Errorf("answer lost %d times: %s; %d stand, %d in doubt", lost, said.Told, s.standing("A"), s.doubts())
		}
	}
}
