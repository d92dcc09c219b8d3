package templates

import (
	"math"
	"strings"
	"testing"
)

// Every embedded template reads without a mistake and has a sheet and a roll to go on.
func TestEmbeddedTemplates(t *testing.T) {
	l := Embedded()
	want := []string{"action", "bin", "holder-spot", "pair", "set", "sleeve-spot", "sleeve-strip", "tie-on", "tie-on-folded", "trunk"}
	if got := strings.Join(l.Tags(), " "); got != strings.Join(want, " ") {
		t.Errorf("templates %s", got)
	}
	for _, name := range l.Tags() {
		tag, err := l.Tag(name)
		if err != nil {
			t.Error(err)
			continue
		}
		fitting := strings.Join(l.FittingSheets(tag), " ")
		if !strings.Contains(fitting, "a4") || !strings.Contains(fitting, "letter") {
			t.Errorf("%s fits on %q: no A4 or no Letter sheet", name, fitting)
		}
	}
}

// A removed runner's tag never carries a person's name, and none of its letters may
// go below 2.5 mm.
func TestTieOnTags(t *testing.T) {
	for _, name := range []string{"tie-on", "tie-on-folded"} {
		source, err := Embedded().TagSource(name)
		if err != nil {
			t.Fatal(err)
		}
		if strings.Contains(string(source), ".Player") {
			t.Errorf("%s names a person", name)
		}
		tag, err := Embedded().Tag(name)
		if err != nil {
			t.Fatal(err)
		}
		sweater := 0
		for _, text := range tag.Texts {
			if text.Least < 2.5 {
				t.Errorf("%s: %q may go down to %s", name, text.Source(), text.Least)
			}
			if text.Source() == "{{.Sweater}}" && text.Height == 14 {
				sweater++
			}
		}
		if sweater == 0 {
			t.Errorf("%s has no sweater number of 14 mm", name)
		}
	}
}

// Cells of every embedded sheet lie on the page and do not overlap.
func TestEmbeddedSheets(t *testing.T) {
	l := Embedded()
	if len(l.Sheets()) < 10 {
		t.Fatalf("only %d sheets", len(l.Sheets()))
	}
	for _, name := range l.Sheets() {
		s, err := l.Sheet(name)
		if err != nil {
			t.Error(err)
			continue
		}
		for i := range s.Cells() {
			a := s.Cell(i)
			if a.X < 0 || a.Y < 0 || a.Right() > s.Width+tolerance || a.Bottom() > s.Height+tolerance {
				t.Errorf("%s: cell %d at %v leaves the page", name, i+1, a)
			}
			for j := range i {
				b := s.Cell(j)
				if math.Abs(float64(a.X-b.X)) < float64(s.CellWidth-tolerance) && math.Abs(float64(a.Y-b.Y)) < float64(s.CellHeight-tolerance) {
					t.Errorf("%s: cells %d and %d overlap", name, i+1, j+1)
				}
			}
		}
		if s.Describe() == "" {
			t.Errorf("%s has no description", name)
		}
	}
}

func TestParseSheetTellsTheLine(t *testing.T) {
	const sound = "title = \"sheet\"\npage = [210, 297]\ncell = [70, 35]\ncolumns = 3\nrows = 8\nfirst = [0, 8.5]\npitch = [70, 35]\n"
	if _, err := ParseSheet("own", []byte(sound)); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct{ old, new, want string }{
		{"rows = 8", "rows = 9", "line 6: the last cell"},
		{"pitch = [70, 35]", "pitch = [60, 35]", "line 7: cells of"},
		{"page = [210, 297]", "page = [210]", "line 2"},
		{"rows = 8", "row = 8", "line 5: no such key in a sheet: row; is rows meant?"},
		{"title = \"sheet\"", "title = \"\"", "line 1"},
		{"rows = 8", "rows = eight", "line 5"},
		{"columns = 3", "columns = 100000", "line 6"},
	} {
		_, err := ParseSheet("own", []byte(strings.Replace(sound, c.old, c.new, 1)))
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v does not say %q", c.new, err, c.want)
		}
	}
}
