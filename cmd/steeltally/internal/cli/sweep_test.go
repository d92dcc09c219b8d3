package cli

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"steeltally/inventory"
)

// number is the short number of a kind's how-manieth thing of the club.
func number(kind inventory.Kind, running int) string {
	n, _ := inventory.NewNumber(kind, 1, running)
	return n.Short()
}

func runnerNo(i int) string { return number(inventory.KindRunner, i) }
func holderNo(i int) string { return number(inventory.KindHolder, i) }
func pairNo(i int) string   { return number(inventory.KindPair, i) }
func setNo(i int) string    { return number(inventory.KindSet, i) }

var (
	binNo   = number(inventory.KindBin, 1)
	trunkNo = number(inventory.KindTrunk, 1)
)

// unsafeClub makes a club in which one of each kind is unsafe: 17 has a cracked holder on
// his first pair and a cracked runner in his set B; what is on the left of 23's pair may have
// broken; a runner of 8 broke, was retired and lies in a bin; a cracked runner came into a
// trunk. All else is sound.
func unsafeClub(t *testing.T) (s *shift, unsafe map[string]bool) {
	s = &shift{t: t, book: "book", now: time.Date(2025, 11, 26, 7, 0, 0, 0, time.UTC)}
	for _, line := range []string{
		"init --club Terns --station 1", "club --zone UTC",
		"player add --name Lindqvarn --sweater 17 --position defence", "player add --name Brimhalt --sweater 23 --position forward",
		"player add --name Quillon --sweater 8 --position forward",
		"specs 17 --passes 5", "specs 23 --passes 5", "specs 8 --passes 5",
		"model add H --piece holder --family Skua --attachment bolt", "model add R --piece runner --family Skua --attachment bolt",
		"pair add 17", "pair add 23", "pair add 8", "pair add 17 --role spare", "pair add 8 --role spare",
		"stockin holder --model H --size 280 --count 7 --side left", "stockin holder --model H --size 280 --count 6 --side right",
		"stockin runner --model R --size 280 --height 11.9 --count 16", "stockin bin --name bin", "stockin trunk --name T1",
	} {
		s.done(line)
	}
	for i := range 5 {
		s.done(fmt.Sprintf("rivet on %s --pair %s", holderNo(1+i), pairNo(1+i)))
		s.done(fmt.Sprintf("rivet on %s --pair %s", holderNo(8+i), pairNo(1+i)))
	}
	for i, sweater := range []int{17, 17, 23, 8, 8, 17, 8} { // sets A B, A, A B, C, C
		s.done(fmt.Sprintf("set add %d --left %s --right %s", sweater, runnerNo(1+2*i), runnerNo(2+2*i)))
	}
	for _, line := range []string{
		"in 17 A", "in 23 A", "in 8 A", "in 17 C --pair " + pairNo(4), "in 8 C --pair " + pairNo(5), "grind all",
		"measure " + runnerNo(1) + " 11.5", "measure " + runnerNo(2) + " 11.5",
		"damage " + holderNo(1) + " --mode crack --zone rear-tower", // on the first pair of 17
		"damage " + runnerNo(4) + " --mode crack --zone heel",       // of his set B
		"emergency 23 --side left", "emergency done 23 --did nothing --took 2m",
		"damage " + runnerNo(7) + " --mode break", "change 8 B --reason broken", "put " + runnerNo(7) + " --place bin",
		"trip add Point --from 2025-12-20 --to 2025-12-24", "trip roster Point --with 17,23,8",
		"trip pack Point " + pairNo(4) + " --trunk T1", "trip pack Point " + runnerNo(15) + " --trunk T1",
		"damage " + runnerNo(15) + " --mode bend", "custody to maker " + holderNo(7) + " --reference L1",
		"damage " + holderNo(7) + " --mode crack --zone front-tower",
	} {
		s.done(line)
	}
	unsafe = map[string]bool{}
	for _, short := range []string{
		holderNo(1), pairNo(1), runnerNo(4), setNo(2), holderNo(2), runnerNo(5), setNo(3), pairNo(2), runnerNo(7), setNo(4), binNo, runnerNo(15), trunkNo, holderNo(7),
	} {
		unsafe[short] = true
	}
	return s, unsafe
}

// sweep hears every verb of a club in which some pieces are unsafe.
type sweep struct {
	*shift
	unsafe map[string]bool
	from   string         // the book that each line begins with
	shown  map[string]int // how often each of them was seen
	verb   string
}

// sweptLines are the command lines by verb; each is said to a person and to a program.
func sweptLines(unsafe map[string]bool) map[string][]string {
	all := slices.Sorted(maps.Keys(unsafe))
	each := func(format string) (lines []string) {
		for _, short := range all {
			lines = append(lines, fmt.Sprintf(format, short))
		}
		return lines
	}
	lines := map[string][]string{
		"buylist": {"buylist --until 2026-03-01"}, "claim": {"claim --model H", "claim --model R", "claim --model H --zone rear-tower"},
		"clearout": {"clearout", "clearout bin", "clearout bin --scrap --reason old"}, "custody": {"custody list"},
		"custody list": {"custody list"}, "custody to": {"custody to maker " + runnerNo(7) + " " + holderNo(6)}, "custody back": {"custody back " + holderNo(7)},
		"custody answer": {"custody answer replace " + holderNo(7)}, "due": {"due", "due 17", "due 23", "due 8"},
		"history":  append(each("history %s"), "history 17 --all", "history 23", "history 8 --all"),
		"set list": {"set list 17 --all", "set list 23 --all", "set list 8 --all"}, "player list": {"player list"},
		"spares": {"spares", "spares --worst", "spares 17", "spares --trip Point"}, "trip manifest": {"trip manifest Point"}, "trip short": {"trip short Point"},
		"trip list": {"trip list --all"}, "trip roster": {"trip roster Point", "trip roster Point --without 8"}, "work": {"work"}, "setaside": {"setaside"},
		"review": {"review", "review 17 --all", "review 8 --all", "review --from numbers.txt --all"},
		"tag":    append(each("tag %s --out tag.pdf --again"), append(each("tag %s --explain"), each("tag %s --grade")...)...),
		"grind":  {"grind all", "grind 17 8", "grind 23"}, "measure": {"measure " + runnerNo(7) + " 11.4", "measure 23 --left 11.4 --right 11.3"}, "change": {"change 23 B", "change 17 A"},
		"in": {"in 8 B", "in 17 B"}, "out": {"out 17 --reason rotate", "out 23 --side left --reason broken"},
		"damage": append(each("damage %s --mode crack --zone toe --note again"), "damage "+runnerNo(9)+" --mode break"), "inspect": {"inspect " + holderNo(1), "inspect " + runnerNo(9)},
		"put": {"put " + runnerNo(4) + " " + pairNo(2) + " --place shelf", "put " + setNo(3) + " --place T1"}, "refuse": {"refuse 17 --until 2026-01-10 --answer later"},
		"rivet on": {"rivet on " + holderNo(6) + " --pair " + pairNo(1), "rivet on " + holderNo(7) + " --pair " + pairNo(2)}, "rivet off": {"rivet off " + holderNo(1)},
		"pair pitch": {"pair pitch " + pairNo(2) + " 1.5mm"}, "pair role": {"pair role " + pairNo(1) + " third"}, "pair promote": {"pair promote 17", "pair promote 8"}, "pair add": {"pair add 23 --role spare"},
		"tried": {"tried 17"}, "skated": {"skated 17", "skated 8"}, "scrap": {"scrap " + runnerNo(7) + " " + holderNo(7) + " --reason bent"},
		"set add":        {"set add 17 --left " + runnerNo(15) + " --right " + runnerNo(16), "set add 17 --left " + runnerNo(9) + " --right " + runnerNo(16)},
		"emergency":      {"emergency 17 --side left", "emergency 17 --side right", "emergency 23 --side left", "emergency 8 --side left"},
		"emergency done": {"emergency done 17 --did spare --took 2m"}, "emergency close": {"emergency close 23"},
		"callup": {"callup Ferrin --sweater 27 --holder-family Skua --size 280"}, "trade": {"trade 17 --to Auks", "trade 23 --to Auks", "trade 8 --to Auks --steel-off"},
		"trip pack": {"trip pack Point " + pairNo(1) + " --trunk T1", "trip pack Point " + runnerNo(4) + " --trunk T1"}, "trip load": {"trip load Point T1"}, "trip back": {"trip back Point T1"},
		"undo": {"undo " + setNo(5)}, "found": {"found 17 --place bin"},
		"stockin bin": {"stockin bin --name other"}, "stockin trunk": {"stockin trunk --name T2"}, "player set": {"player set 17 --position forward"}, "specs": {"specs 23 --passes 4"},
	}
	return lines
}

// unswept are the verbs that name no piece of the club, and why.
var unswept = map[string]string{
	"calc contact|calc edge|calc hollow|calc lean|calc pitch|calc profile|calc strength|calc table hollow": "no book is looked at",
	"init|demo|rebuild|merge|backup|verify": "about whole books",
	"club|clock|clock right|clock set|game add|game list|game import|model add|player add|trip add|trip kit|trip kits|spares rules": "about the club, its calendar and people",
	"printer add|printer list|printer remove|printer calibrate|sheet check|sheet list|template check|template list|template new":    "about paper and printers",
	"stockin runner|stockin holder": "what is new is sound",
	"setaside take|setaside drop":   "nothing is set aside here",
	"import":                        "what is imported is new",
	"read":                          "numbers of a picture, whose book need not be here",
	"export":                        "the journal as it is; the script of exports holds the tables",
	"scan":                          "what it says goes by the same voice; it waits for scans",
	"station":                       "it serves until it is stopped",
}

// The exceptions: lines that show a number and need not warn.
var (
	pastLine     = regexp.MustCompile(`^(?:\S.*?)?\d+@[0-9a-f]{4} `) // an entry of a history tells what was; its card stands above it
	hintLine     = regexp.MustCompile(`(?m)^ {6,}.*$`)               // a hint says what to do
	spelledTyped = regexp.MustCompile(`\bsteeltally [a-z].*`)        // a command line is there to be typed
	anyNumber    = regexp.MustCompile(`\b(?:[RHPSTB]\d-\d+-\d\d|[1-6]\d{9})\b`)
)

// unsafeIn are the unsafe pieces that a text shows, in their short form.
func (s *sweep) unsafeIn(text string) (found []string) {
	for _, one := range anyNumber.FindAllString(spelledTyped.ReplaceAllString(text, ""), -1) {
		if n, err := inventory.ParseNumber(one); err == nil && s.unsafe[n.Short()] {
			found = append(found, n.Short())
			s.shown[n.Short()]++
		}
	}
	return found
}

// hear runs a line on a copy of the book, and reads all that it says.
func (s *sweep) hear(line string, warns func(out string)) {
	s.t.Helper()
	s.book = filepath.Join(s.t.TempDir(), "book")
	must(s.t, os.CopyFS(s.book, os.DirFS(s.from)))
	var out bytes.Buffer
	code, noted := s.does(&out, line)
	if code == exitUsage || code == exitFailed || code == exitDamaged {
		s.t.Errorf("%s: exit code %d: %s", line, code, noted)
	}
	s.lines(line, hintLine.ReplaceAllString(noted, ""))
	warns(out.String())
}

func (s *sweep) lines(said, text string) {
	s.t.Helper()
	for _, line := range strings.Split(text, "\n") {
		if s.verb == "history" && pastLine.MatchString(line) {
			continue
		}
		if found := s.unsafeIn(line); len(found) > 0 && !strings.Contains(line, "DO NOT SKATE") {
			s.t.Errorf("%s: nothing warns of %v in: %s", said, found, line)
		}
	}
}

// object reads an object and those within it: but for the bodies of entries, which stand
// as they were written.
func (s *sweep) object(said string, value any) {
	s.t.Helper()
	switch v := value.(type) {
	case []any:
		for _, one := range v {
			s.object(said, one)
		}
	case map[string]any:
		named := s.named(v)
		if len(named) > 0 && v["do_not_skate"] != true {
			s.t.Errorf("%s: nothing warns of %v in: %v", said, named, v)
		}
		for key, one := range v {
			if key != "body" {
				s.object(said, one)
			}
		}
	}
}

// named are the unsafe pieces that an object names: by its number, or else at all.
func (s *sweep) named(object map[string]any) (found []string) {
	if own, _ := object["number"].(string); anyNumber.MatchString(own) {
		return s.unsafeIn(own)
	}
	for _, value := range object {
		list, isList := value.([]any)
		if !isList {
			list = []any{value}
		}
		for _, one := range list {
			if text, isText := one.(string); isText {
				found = append(found, s.unsafeIn(text)...)
			}
		}
	}
	return found
}

// Whatever shows the number of something unsafe says DO NOT SKATE: every verb is known here.
func TestEveryVerbSaysDoNotSkate(t *testing.T) {
	t.Chdir(t.TempDir())
	club, unsafe := unsafeClub(t)
	s := &sweep{shift: club, unsafe: unsafe, from: "book", shown: map[string]int{}}
	must(t, os.WriteFile("numbers.txt", []byte(strings.Join(slices.Sorted(maps.Keys(unsafe)), "\n")+"\n"), 0o600))
	lines := sweptLines(unsafe)
	known := map[string]bool{}
	for verbs := range unswept {
		for _, verb := range strings.Split(verbs, "|") {
			known[verb] = true
		}
	}
	eachVerb((&app{}).root(), func(verb string) {
		if len(lines[verb]) == 0 && !known[verb] {
			t.Errorf("the sweep does not know how to call %s", verb)
		}
	})
	for verb, some := range lines {
		s.verb = verb
		for _, line := range some {
			s.hear(line, func(out string) { s.lines(line, out) })
			s.hear(line+" --json", func(out string) {
				var object any
				must(t, json.Unmarshal([]byte(out), &object))
				s.object(line, object)
			})
		}
	}
	for short := range unsafe {
		if s.shown[short] < 8 {
			t.Errorf("%s was shown %d times: that sweeps too little", short, s.shown[short])
		}
	}
	t.Log(s.shown)
}
