package report

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"steeltally/geometry"
	"steeltally/labels"
)

// long is a report of more rows than a page holds, with cells that must be broken.
func long() Report {
	table := Table{
		Title:   "Removed runners",
		Columns: []Column{{Title: "Number"}, {Title: "Player"}, {Title: "Passes", Right: true}, {Title: "Reason"}},
	}
	for i := range 90 {
		table.Rows = append(table.Rows, []string{
			fmt.Sprintf("R0-%d-44", i), "Ansgar Lindqvarn of Rime Point", fmt.Sprint(i * 5),
			"broke in the second period when the puck hit the rear tower, and was bent besides",
		})
	}
	return Report{Title: "Bin of November", Notes: []string{"28 OCT to 28 NOV 2025"}, Tables: []Table{table}}
}

// text is all that a page says, in the order of writing.
func text(p labels.Page) string {
	var words []string
	for _, run := range p.Texts {
		words = append(words, run.Text)
	}
	return strings.Join(words, "|")
}

func TestEachPageHasTheHeadAndNothingOverlaps(t *testing.T) {
	for _, paper := range []Paper{A4(), Letter()} {
		pages := Pages(long(), paper, 300)
		if len(pages) < 3 {
			t.Fatalf("%s: %d pages for 90 rows of three lines", paper.Name, len(pages))
		}
		rows := 0
		for i, page := range pages {
			if faults := page.Faults(); faults != nil {
				t.Errorf("%s, page %d: %s", paper.Name, i+1, faults)
			}
			if !strings.Contains(text(page), "Number|Player|Passes|Reason") {
				t.Errorf("%s, page %d has no table head", paper.Name, i+1)
			}
			if want := fmt.Sprintf("page %d of %d", i+1, len(pages)); !strings.Contains(text(page), want) {
				t.Errorf("%s, page %d does not say %q", paper.Name, i+1, want)
			}
			rows += strings.Count(text(page), "-44|")
		}
		if rows != 90 {
			t.Errorf("%s: %d rows printed, want 90", paper.Name, rows)
		}
	}
}

func TestNothingIsLostSilently(t *testing.T) {
	pages := Pages(Report{Title: "Names", Tables: []Table{{
		Title: "One", Columns: []Column{{Title: "Player"}, {Title: "Note"}},
		Rows: [][]string{{"Ida 😀", strings.Repeat("o", 200)}, {"only one cell"}},
	}}}, A4(), 300)
	page := pages[0]
	if len(page.Notices) != 1 || !strings.Contains(page.Notices[0], "U+1F600") {
		t.Errorf("notices %q, want one for U+1F600", page.Notices)
	}
	if said := text(page); !strings.Contains(said, "Ida □") || !strings.Contains(said, "o…") {
		t.Errorf("page says %q", said)
	}
}

func TestEmptyTableSaysSo(t *testing.T) {
	pages := Pages(Report{Title: "Bin", Tables: []Table{{Title: "Removed", Columns: []Column{{Title: "Number"}}, Empty: "No pieces."}, {Title: "No columns"}}}, Letter(), 203)
	if len(pages) != 1 || !strings.Contains(text(pages[0]), "No pieces.") {
		t.Errorf("%d pages, saying %q", len(pages), text(pages[0]))
	}
}

func TestShareLowersOnlyTheWide(t *testing.T) {
	widths := []geometry.Millimetre{10, 100, 20, 200}
	share(widths, 150)
	want := []geometry.Millimetre{10, 60, 20, 60}
	for i := range want {
		if math.Abs(float64(widths[i]-want[i])) > 1e-9 {
			t.Fatalf("widths %v, want %v", widths, want)
		}
	}
	narrow := []geometry.Millimetre{10, 20}
	share(narrow, 150)
	if narrow[0] != 10 || narrow[1] != 20 {
		t.Errorf("widths that fit were changed: %v", narrow)
	}
}
