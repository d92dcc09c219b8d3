//go:build outside

package cli

import (
	"bytes"
	"encoding/json"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
)

// printed runs a line that prints on a copy of the book, and reads the PDF back with another
// program; it is empty where that template is for other things.
func (s *sweep) printed(line, file string) string {
	s.t.Helper()
	s.book = filepath.Join(s.t.TempDir(), "book")
	must(s.t, os.CopyFS(s.book, os.DirFS(s.from)))
	os.Remove(file)
	if code, noted := s.does(new(bytes.Buffer), line); code == exitFailed || code == exitDamaged {
		s.t.Fatalf("%s: exit code %d: %s", line, code, noted)
	}
	if _, err := os.Stat(file); err != nil {
		return ""
	}
	text, err := exec.Command("pdftotext", "-layout", file, "-").Output()
	must(s.t, err)
	return string(text)
}

// sheetLines are the command lines that write sheets of paper, by verb.
var sheetLines = map[string][]string{
	"claim": {"claim --model H --pdf o.pdf", "claim --model R --pdf o.pdf"}, "trade": {"trade 17 --to Auks --pdf o.pdf", "trade 23 --to Auks --pdf o.pdf"},
	"trip manifest": {"trip manifest Point --pdf o.pdf"}, "review": {"review --all --pdf o.pdf", "review --from numbers.txt --all --pdf o.pdf"},
}

// Each sheet of paper that shows the number of something unsafe says DO NOT SKATE beside it: a
// verb that writes one has to be known here. Without the warning, each sheet that shows such a
// number is found.
func TestEverySheetSaysDoNotSkate(t *testing.T) {
	t.Chdir(t.TempDir())
	club, unsafe := unsafeClub(t)
	s := &sweep{shift: club, unsafe: unsafe, from: "book", shown: map[string]int{}}
	must(t, os.WriteFile("numbers.txt", []byte(strings.Join(slices.Sorted(maps.Keys(unsafe)), "\n")+"\n"), 0o600))
	root := (&app{}).root()
	eachVerb(root, func(verb string) {
		cmd, _, err := root.Find(strings.Fields(verb))
		if must(t, err); cmd.Flags().Lookup("pdf") != nil && sheetLines[verb] == nil && !strings.HasPrefix(verb, "calc ") {
			t.Errorf("%s writes a sheet that is not swept", verb)
		}
	})
	showing := 0
	for _, lines := range sheetLines {
		for _, line := range lines {
			text := s.printed(line, "o.pdf")
			if text == "" {
				t.Errorf("%s wrote nothing", line)
			}
			said := strings.Split(text, "\n")
			for i, one := range said {
				found := s.unsafeIn(one)
				beside := strings.Join(said[i:min(i+3, len(said))], "\n") // in its cell, or on the next line of it
				if strings.Count(beside, "DO NOT SKATE") < len(found) {
					t.Errorf("%s: too little warns of %v in: %s", line, found, beside)
				}
				if strings.Count(one, "DO NOT") != strings.Count(one, "DO NOT SKATE") {
					t.Errorf("%s: the warning is broken over two lines: %s", line, one)
				}
				if len(found) > 0 {
					showing++
				}
			}
		}
	}
	if showing < 10 {
		t.Errorf("only %d lines of paper showed the number of something unsafe", showing)
	}
}

// The tag of each unsafe thing says DO NOT SKATE, by each template that it has.
func TestEveryTagSaysDoNotSkate(t *testing.T) {
	t.Chdir(t.TempDir())
	club, unsafe := unsafeClub(t)
	s := &sweep{shift: club, unsafe: unsafe, from: "book", shown: map[string]int{}}
	var out bytes.Buffer
	s.does(&out, "template list --json")
	var list struct {
		Templates []struct {
			Name string `json:"name"`
		} `json:"templates"`
	}
	must(t, json.Unmarshal(out.Bytes(), &list))
	used := map[string]int{}
	for _, short := range slices.Sorted(maps.Keys(unsafe)) {
		tags := 0
		for _, template := range list.Templates {
			line := "tag " + short + " --template " + template.Name + " --again --out o.pdf"
			text := s.printed(line, "o.pdf")
			if text == "" {
				continue
			}
			tags++
			used[template.Name]++
			words := strings.Join(strings.Fields(text), " ")
			ofAnother := len(anyNumber.FindAllString(words, -1)) > 0 && len(s.unsafeIn(words)) == 0 // such as of the set on a pair
			if !ofAnother && !strings.Contains(words, "DO NOT SKATE") {
				t.Errorf("%s: the tag does not warn: %s", line, words)
			}
		}
		if tags == 0 {
			t.Errorf("%s has no tag", short)
		}
	}
	t.Log(used)
	if len(used) < 7 {
		t.Errorf("only %d of %d templates were used", len(used), len(list.Templates))
	}
}
