package cli

import (
	"bytes"
	"context"
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"
	"time"

	"github.com/spf13/cobra"
)

// fullDisk is a standard output on which nothing more goes.
type fullDisk struct{}

func (fullDisk) Write([]byte) (int, error) {
	return 0, &os.PathError{Op: "write", Path: "/dev/stdout", Err: syscall.ENOSPC}
}

// shift is somebody who works a whole day in one folder.
type shift struct {
	t     *testing.T
	book  string
	now   time.Time
	typed string
}

// does runs a command line, where it can be heard or not.
func (s *shift) does(out io.Writer, line string) (code int, noted string) {
	s.t.Helper()
	var words bytes.Buffer
	world := World{
		Stdin: strings.NewReader(s.typed), Stdout: out, Stderr: &words, Self: os.Args[0],
		Getenv: func(name string) string {
			return map[string]string{"STEELTALLY_BOOK": s.book, "STEELTALLY_MACHINE": "machine"}[name]
		},
		Now: func() time.Time {
			s.now = s.now.Add(time.Second)
			return s.now
		},
	}
	return Main(context.Background(), world, strings.Fields(line)), words.String()
}

func (s *shift) done(line string) string {
	s.t.Helper()
	var said bytes.Buffer
	if code, noted := s.does(&said, line); code != exitDone {
		s.t.Fatalf("%s: exit code %d: %s", line, code, noted)
	}
	return said.String()
}

// forked makes two copies of one folder that went on as one.
func (s *shift) forked(name, twin string) {
	s.t.Helper()
	s.done("rebuild --from terns.zip --into " + name)
	s.book = name
	put := func(place string) { s.done("put R1-5-65 --place " + place) }
	put("a")
	was := s.files()
	put("b")
	must(s.t, os.CopyFS(twin, os.DirFS(s.book)))
	for path, text := range was {
		must(s.t, os.WriteFile(path, text, 0o600))
	}
	must(s.t, os.RemoveAll("machine/books")) // a machine that kept nothing
	put("c")
	put("d")
}

func (s *shift) files() map[string][]byte {
	s.t.Helper()
	kept := map[string][]byte{}
	for _, name := range []string{"journal.jsonl", "book.db"} {
		path := filepath.Join(s.book, name)
		text, err := os.ReadFile(path)
		must(s.t, err)
		kept[path] = text
	}
	return kept
}

func must(t *testing.T, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

const (
	fixture = "BEGIN:VCALENDAR\r\nVERSION:2.0\r\nPRODID:-//Terns//EN\r\nBEGIN:VEVENT\r\nUID:1@terns\r\nDTSTAMP:20251101T000000Z\r\nDTSTART:20251220T190000Z\r\nSUMMARY:Terns - Auks\r\nEND:VEVENT\r\nEND:VCALENDAR\r\n"
	oldList = "Text\n17 L nov 24\n"
)

// works are the command lines of a day, each of which makes or changes something. Where
// another one has to be done and heard before, that stands before a "|".
func works() []string {
	return []string{
		"init --club Terns --station 1", "club --zone UTC",
		"player add --name Lindqvarn --sweater 17 --position defence", "player set 17 --position forward", "specs 17 --passes 5",
		"model add H --piece holder --family Skua --attachment bolt", "pair add 17",
		"stockin runner --model R --size 280 --height 11.9 --count 8", "stockin holder --model H --size 280 --count 2 --side left", "stockin bin --name bin", "stockin trunk --name T1",
		"set add 17 --left R1-1-77 --right R1-2-74", "rivet on H1-1-43 --pair P1-1-09", "rivet off H1-1-43", "rivet on H1-1-43 --pair P1-1-09 | in 17 A",
		"grind 17", "measure R1-1-77 11.5", "inspect P1-1-09", "damage H1-2-40 --mode crack --zone rear-tower", "put R1-3-71 --place shelf",
		"set add 17 --left R1-3-71 --right R1-4-68 | change 17 B --reason low", "out 17 --reason rotate", "undo", "refuse 17 --until 2026-01-10 --answer later",
		"pair pitch P1-1-09 1.5mm", "pair add 17 --role spare | tried 17", "skated 17",
		"emergency 17 --side left", "emergency done 17 --did spare --took 2m", "emergency close 17", "pair role P1-2-06 third", "pair role P1-2-06 spare | pair promote 17",
		"spares rules --tried-within 30", "game add 2025-12-01T19:00 --against Auks", "game import fixture.ics",
		"custody to maker H1-2-40 --reference 2025-12", "custody answer replace H1-2-40", "custody back H1-2-40",
		"trip add Point --from 2025-12-20 --to 2025-12-24", "trip roster Point --with 17", "trip kit rivets --least 20",
		"trip pack Point R1-7-59 --trunk T1", "trip load Point T1", "trip back Point T1", "callup Ferrin --sweater 27 --holder-family Skua --size 272 --hollow 1/2in --unknown profile,pitch",
		"found 17 --place bin", "import old.csv --map inscription=Text --write", "scrap R1-8-56 --reason bent", "trade 27 --to Auks",
		"tag R1-1-77 --out tag.pdf", "tag R1-2-74 --out tag.png | read tag.png --mark found.png", "template new own --from tie-on", "printer add bench --queue Q --sheet roll-70x35", "printer calibrate bench --out page.pdf",
		"printer calibrate bench --left 8.4", "printer remove bench",
		"export --jsonl all.jsonl", "export --csv tables", "backup terns.zip", "rebuild --from terns.zip --into again", "demo --dir demo --events 1000",
		"review --pdf review.pdf", "damage R1-3-71 --mode crack | claim --model R --pdf claim.pdf", "calc table hollow --thickness 2.9mm --pdf table.pdf", "trip manifest Point --pdf manifest.pdf",
	}
}

// tells are the verbs that only tell.
const tells = "buylist|calc contact|calc edge|calc hollow|calc lean|calc pitch|calc profile|calc strength|clearout|clock|custody|custody list|due|game list|history|player list|printer list|set list|setaside|sheet check|sheet list|spares|station|template check|template list|trip kits|trip list|trip short|work"

// What was done stands where nothing can be said of it, and that is said: with every verb
// that makes or records something.
func TestWhatWasDoneStandsThoughItIsNotHeard(t *testing.T) {
	t.Chdir(t.TempDir())
	must(t, os.WriteFile("fixture.ics", []byte(fixture), 0o600))
	must(t, os.WriteFile("old.csv", []byte(oldList), 0o600))
	s := &shift{t: t, book: "book", now: time.Date(2025, 11, 26, 7, 0, 0, 0, time.UTC)}
	tried := map[string]bool{}
	try := func(line string) {
		t.Helper()
		code, noted := s.does(fullDisk{}, line)
		if code != exitNoTag || !strings.Contains(noted, "standard output can't be written: no space left on device") || strings.Contains(noted, "make room there") {
			t.Errorf("%s: exit code %d: %s", line, code, noted)
		}
		cmd, _, err := (&app{}).root().Find(strings.Fields(line))
		must(t, err)
		tried[verbOf(cmd)] = true
	}
	for _, work := range works() {
		before, line, found := strings.Cut(work, " | ")
		if found {
			s.done(before)
		} else {
			line = work
		}
		try(line)
	}
	s.typed = "R1-5-65\ni\nq\n"
	try("scan")
	s.now = s.now.AddDate(-1, 0, 0)
	s.done("inspect R1-5-65")
	try("clock right")
	s.now = s.now.AddDate(-1, 0, 0)
	s.done("inspect R1-5-65")
	s.now = s.now.AddDate(2, 0, 0)
	try("clock set --by 730d")
	s.forked("fork", "twin")
	try("merge twin")
	try("setaside take --all")
	s.forked("branch", "other")
	s.done("merge other")
	try("setaside drop --all")
	for path, text := range s.files() {
		if strings.HasSuffix(path, "jsonl") {
			must(t, os.WriteFile(path, append(text, '\n'), 0o600))
		}
	}
	try("verify --mend")
	if code, noted := s.does(fullDisk{}, "verify --mend"); code != exitFailed || !strings.Contains(noted, "make room there") {
		t.Errorf("where nothing was to be mended: exit code %d: %s", code, noted)
	}
	for _, verb := range strings.Split(tells, "|") {
		tried[verb] = true
	}
	eachVerb((&app{}).root(), func(verb string) {
		if !tried[verb] {
			t.Errorf("%s is neither tried nor among the verbs that only tell", verb)
		}
	})
}

// eachVerb visits what does something by itself.
func eachVerb(cmd *cobra.Command, visit func(verb string)) {
	for _, sub := range cmd.Commands() {
		if sub.Example != "" {
			visit(verbOf(sub))
		}
		eachVerb(sub, visit)
	}
}
