package cli

import (
	"bytes"
	"context"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory"
)

// person is somebody at a terminal, with a book and a clock of its own.
type person struct {
	t      *testing.T
	book   string
	now    time.Time
	script string // what is typed and scanned next
	step   time.Duration
	waits  []time.Duration // at a terminal: before each line
}

// run runs one command line and gives all that was said; the clock goes on by a step
// each time it is asked.
func (p *person) run(line ...string) string {
	p.t.Helper()
	return p.ends(exitDone, line...)
}

// refused is what is said of a command line that is refused.
func (p *person) refused(script string, line ...string) string {
	p.t.Helper()
	p.script = script
	return p.ends(exitRefused, line...)
}

func (p *person) ends(want int, line ...string) string {
	p.t.Helper()
	var said bytes.Buffer
	world := World{
		Stdin: strings.NewReader(p.script), Stdout: &said, Stderr: &said, Interactive: true,
		Getenv: func(string) string { return "" },
		Now: func() time.Time {
			p.now = p.now.Add(p.step)
			return p.now
		},
	}
	if p.waits != nil {
		world.Typed = p.clockOfLines()
	}
	if code := Main(context.Background(), world, append(line, "--book", p.book)); code != want {
		p.t.Fatalf("%v: exit code %d: %s", line, code, &said)
	}
	return said.String()
}

// clockOfLines is asked before and after each line.
func (p *person) clockOfLines() func() time.Time {
	now, asked := p.now, 0
	return func() time.Time {
		if line := asked / 2; asked%2 == 1 && line < len(p.waits) {
			now = now.Add(p.waits[line])
		}
		asked++
		return now
	}
}

// newPerson makes a book with the two players who wear 17, one with steel on.
func newPerson(t *testing.T) *person {
	p := &person{t: t, book: filepath.Join(t.TempDir(), "book"), now: time.Date(2025, 11, 26, 7, 0, 0, 0, time.UTC)}
	for _, line := range []string{
		"init --club Terns",
		"player add --name Lindqvarn --sweater 17 --position defence",
		"specs 17 --passes 5",
		"pair add 17",
		"stockin runner --model R --size 280 --count 2",
		"set add 17 --left R1-1-77 --right R1-2-74",
		"in 17 A",
		"player add --name Brimhalt --sweater 17 --position forward",
	} {
		p.run(strings.Fields(line)...)
	}
	return p
}

func mustSay(t *testing.T, said string, wants ...string) {
	t.Helper()
	for _, want := range wants {
		if !strings.Contains(said, want) {
			t.Errorf("%q is missing in:\n%s", want, said)
		}
	}
}

func TestScanAsksBeforeASecondGrindWithinAMinute(t *testing.T) {
	p := newPerson(t)
	p.script = "Lind\n\n\nn\n\nyes\nq\n"
	said := p.run("scan")
	mustSay(t, said, "ground less than a minute ago; once more?", "not logged again")
	if got := strings.Count(said, "left 5, right 5"); got != 2 {
		t.Errorf("%d grinds were logged, want the first and the one that was answered yes:\n%s", got, said)
	}
	if work := p.run("work"); strings.Contains(work, "two grinds") {
		t.Errorf("what a person said yes to is asked about once more:\n%s", work)
	}
}

func TestAScanInPlaceOfAnAnswerIsActedOn(t *testing.T) {
	p := newPerson(t)
	p.script = "Lind\n\n\nR1-2-74\nq\n"
	said := p.run("scan")
	mustSay(t, said, "not logged again", "runner R1-2-74")
}

func TestScanLogsAgainAfterAMinuteWithoutAsking(t *testing.T) {
	p := newPerson(t)
	p.script, p.step = "Lind\n\n\nq\n", 45*time.Second
	said := p.run("scan")
	if strings.Contains(said, "once more?") || strings.Count(said, "left 5, right 5") != 2 {
		t.Errorf("asked, or not logged twice:\n%s", said)
	}
}

func TestAmbiguousSweaterTakesOneKey(t *testing.T) {
	p := newPerson(t)
	p.script = "1\n"
	mustSay(t, p.run("grind", "17"), "1  Lindqvarn", "2  Brimhalt", "17 Lindqvarn: grind on set A")
	p.script = "17\n1\nq\n"
	mustSay(t, p.run("scan"), "which one?", "17 Lindqvarn")
}

// A name shows; while each scan grinds it asks, and elsewhere a verb asks for whom.
func TestANameShowsAndAsks(t *testing.T) {
	p := newPerson(t)
	p.script = "g\nh\nL\nli\nLind\nn\nLindqvarn\nq\n"
	if said := p.run("scan"); strings.Contains(said, "grind on set A") || !strings.Contains(said, "log the usual grind of 17 Lindqvarn? (y/n)") {
		t.Errorf("a name recorded, or did not ask:\n%s", said)
	}
	p.script = "g\nqvarn\nLIND\ny\nLind\n4100000172\nn\nq\n"
	said := p.run("scan")
	mustSay(t, said, "nobody is known as qvarn", "17 Lindqvarn: grind on set A", "nothing was ground", "once more?", "not logged again")
	if got := strings.Count(said, "17 Lindqvarn: grind"); got != 1 {
		t.Errorf("%d grinds, want the one that was answered yes:\n%s", got, said)
	}
	p.script = "y\n"
	mustSay(t, p.run("grind", "Lind", "--more", "--left", "1"), "17 Lindqvarn? (y/n)", "more grind on set A")
	if said := p.refused("n\n", "grind", "Lind"); !strings.Contains(said, "nothing was recorded") {
		t.Error(said)
	}
	if said := p.refused("", "grind", "Lind", "--json"); !strings.Contains(said, "if he is meant type Y1-1-67") {
		t.Error(said)
	}
}

func TestActionCardsWorkWithGlovesOn(t *testing.T) {
	p := newPerson(t)
	card := map[string]string{}
	for _, action := range inventory.Actions() {
		card[action.Word] = action.Number.String()
	}
	p.script = strings.Join([]string{card["GRIND"], "4100000172", card["UNDO"], card["DONE"], ""}, "\n")
	said := p.run("scan")
	mustSay(t, said, "from now on each scan logs", "grind on set A", "taken back: 17 Lindqvarn: grind", "not logged this session: 17")
}

func TestJunkNeverEndsTheLoop(t *testing.T) {
	p := newPerson(t)
	p.script = strings.Repeat("9", 3_000_000) + "\n\x00\xff\xfe\x1b[2J\n4006381333931\nLind\n\nq"
	said := p.run("scan")
	mustSay(t, said, "ours have ten", "17 Lindqvarn: grind on set A", "everybody with steel on was logged this session")
	if strings.ContainsAny(said, "\x00\x1b") {
		t.Errorf("control characters reached the terminal: %q", said)
	}
	if len(said) > 4000 {
		t.Errorf("%d letters were said", len(said))
	}
}

// Two scans change the steel: the set that goes on, and the card of the action, in
// either order.
func TestChangeTakesTwoScans(t *testing.T) {
	p := newPerson(t)
	p.run("stockin", "runner", "--model", "R", "--size", "280", "--count", "4")
	p.run("set", "add", "Y1-1-67", "--left", "R1-3-71", "--right", "R1-4-68")
	p.run("set", "add", "Y1-1-67", "--left", "R1-5-65", "--right", "R1-6-62")
	change := inventory.Actions()[inventory.ActChange-1].Number.String()
	p.script = strings.Join([]string{"4100000269", change, change, "4100000366", "u", "q", ""}, "\n")
	said := p.run("scan")
	mustSay(t, said, "set A off Lindqvarn's", "set B on Lindqvarn's", "change: scan the set that goes on", "set C on Lindqvarn's",
		"tie a tag on each removed runner", "taken back: set C on")
}

// A caliper that types needs no key but its own: two readings and Enter, or six.
func TestCaliperReadingsNeedNoKey(t *testing.T) {
	p := newPerson(t)
	p.script = "Lind\n11.10\n11,05\n\n11.1\n11.2\n11.1\n11.0\n11.1\n+011.00\n11.0\n11.1\nu\nu\nq\n"
	said := p.run("scan")
	mustSay(t, said, "reading 1: 11.10 mm", "reading 2: 11.05 mm", "left 11.10 mm, right 11.05 mm", "reading 5", "reading 11.10 mm is dropped")
	if got := strings.Count(said, "17 Lindqvarn: height"); got != 2 {
		t.Errorf("%d measurements were recorded, want 2:\n%s", got, said)
	}
}

// A scan settles readings that make a whole measurement; others are said to be lost.
func TestAScanSettlesTheCalipersReadings(t *testing.T) {
	p := newPerson(t)
	p.script = "Lind\n11.1\n11.0\n4100000172\n11.0\nR1-2-74\n11.1\n\nq\n"
	said := p.run("scan")
	mustSay(t, said, "17 Lindqvarn: height", "1 reading, not a whole measurement", "runner R1-2-74")
	if got := strings.Count(said, "height"); got < 3 {
		t.Errorf("the runner alone was not measured:\n%s", said)
	}
}

// What is no answer to a question is acted on, and the question is dropped.
func TestTheClockAsksAfterwards(t *testing.T) {
	p := newPerson(t)
	p.script = "Lind\ner\ned\n1\n2\n\n2\nq\n"
	mustSay(t, p.run("scan"), "DO NOT SKATE", "the clock runs", "what was done?", "what had broken?", "shifts missed?")
	p.script = "Lind\nel\ned\nLind\nq\n"
	mustSay(t, p.run("scan"), "what was done?", "left open")
}

// Another program has the book: it is said that nothing of what is scanned is recorded.
func TestScanWhileTheBookIsInUse(t *testing.T) {
	p := newPerson(t)
	other, err := desk.Open(desk.Options{Book: p.book, Now: func() time.Time { return p.now }})
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close()
	var said bytes.Buffer
	world := World{
		Stdin: strings.NewReader("17\n\n"), Stdout: &said, Stderr: &said, Interactive: true,
		Getenv: func(string) string { return "" }, Now: func() time.Time { return p.now },
	}
	if code := Main(context.Background(), world, []string{"scan", "--book", p.book}); code != exitInUse {
		t.Errorf("exit code %d", code)
	}
	mustSay(t, said.String(), "nothing that is scanned is recorded", "in use by", "try again when it is done")
}

// What a scanner sends at the end of a line, in one burst, is one end; Enter that a person
// presses is another. The same from a pipe is what it is.
func TestOneEndOfALine(t *testing.T) {
	const at, later = 30 * time.Millisecond, 101 * time.Millisecond
	for _, c := range []struct {
		script string
		waits  []time.Duration
		grinds int
	}{
		{"Y1-1-67\n\nq\n", []time.Duration{later, at, later}, 0},
		{"Y1-1-67\n\n\n\nq\n", []time.Duration{later, at, at, at, later}, 0},
		{"Y1-1-67\n\n\nq\n", []time.Duration{later, at, later, later}, 1},
		{"Y1-1-67\n\nq\n", []time.Duration{later, later, later}, 1},
		{"]C1Y1-1-67\t\n\nq\n", []time.Duration{later, at, later, later}, 1},
		{"Y1-1-67\t\tq\t", []time.Duration{later, at, later}, 0},
		{"Y1-1-67\r\n\r\nq\n", []time.Duration{later, at, later, at, later}, 1},
		{"g\nY1-1-67\n\nq\n", []time.Duration{later, at, at, later}, 1},
		{"Y1-1-67\n\n\n\nq\n", []time.Duration{later, later, at, later, later}, 1}, // the second asks first
		{"Y1-1-67\n\nq\n", nil, 1},
		{"Y1-1-67\r\nq\r\n", nil, 0},
		{"Y1-1-67\r\n\r\nq\r\n", nil, 1},
		{"Y1-1-67\t\r\nq\n", nil, 0},
		{"Y1-1-67\t\n\nq", nil, 1},
		{"Y1-1-67\r\rq\r", nil, 1},
	} {
		p := newPerson(t)
		p.script, p.waits = c.script, c.waits
		said := p.run("scan")
		if got := strings.Count(said, "grind on set A"); got != c.grinds || !strings.Contains(said, "17 Lindqvarn") {
			t.Errorf("%q, waited %v: %d grinds, want %d:\n%s", c.script, c.waits, got, c.grinds, said)
		}
	}
}

// The test of a scanner records nothing, and says what the scanner has to be set to.
func TestTheScannersSelfTest(t *testing.T) {
	p := newPerson(t)
	const later, at = time.Second, 5 * time.Millisecond
	p.script = "]d10123456789\n\nabcdefghijklmnopqrstuvwxyz.1357924680\t9876543210\n\n\n"
	p.waits = []time.Duration{later, at, later, later, at, later}
	said := p.run("scan", "--self-test")
	mustSay(t, said, "can be used as it is", "identifier (]d1) first", "Enter and Enter: taken for one", "small letters", "with Tab", "▀", "Code 128")
	p.script, p.waits = "à&é\"'(-è_ç\nq\n", nil
	mustSay(t, p.run("scan", "--self-test"), "has to be set", "set its keyboard language")
	p.script = "q\n"
	mustSay(t, p.run("scan", "--self-test"), "nothing was scanned")
}
