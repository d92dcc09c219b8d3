package labels_test

import (
	"fmt"
	"strings"
	"testing"

	"steeltally/geometry"
	"steeltally/labels"
	"steeltally/labels/symbol"
	"steeltally/templates"
)

// resolutions are those that printers of tags and of office paper have.
var resolutions = []geometry.DPI{203, 300, 600}

// variants are contents that a tag must take: each side, unsafe, the longest number,
// texts too long for any place, and a tag on which almost nothing is known.
func variants() map[string]templates.Content {
	left := templates.Sample()
	right, unsided, unsafe, longest, bare := left, left, left, left, left
	right.Side, unsided.Side = "right", ""
	unsafe.Unsafe, unsafe.Side, unsafe.Reason = true, "right", "cracked"
	longest.Number, longest.Short, longest.Sweater = "1999999942", "R9-999999-42", "100"
	longest.Tally = "T1.1999999942.99.999999.100R.251231.261231.12999.12999.9999.99999.160.CRACKED.42"
	longest.LastGame, longest.Reason = "Upper Skarn Harbour Breakwater 27 NOV", "holder torn off its rivets"
	longest.Player, longest.Name = "Maximilienne Ångström-Featherstonehaugh gjpqy", "Trunk of the away benches 14"
	longest.Hollow, longest.SetOrder, longest.HeightFinal = "0.625 in", "set 100", "10.25 mm"
	longest.Lines = strings.Split(strings.Repeat("spare pairs of skates with holders and steel;", 30), ";")
	longestUnsafe := longest
	longestUnsafe.Unsafe = true
	bare = templates.Content{Number: left.Number, Short: left.Short, Tally: left.Tally, Word: "OUT", Name: "Bin 1", Sweater: "0"}
	return map[string]templates.Content{"left": left, "right": right, "no side": unsided, "unsafe": unsafe, "longest": longest, "longest unsafe": longestUnsafe, "bare": bare}
}

// eachLayout lays every embedded template out with every variant at every resolution.
func eachLayout(t *testing.T, check func(t *testing.T, name string, c templates.Content, p labels.Page)) {
	t.Helper()
	library, done := templates.Embedded(), 0
	for _, tag := range library.Tags() {
		template, err := library.Tag(tag)
		if err != nil {
			t.Fatal(err)
		}
		for variant, content := range variants() {
			for _, dpi := range resolutions {
				name := fmt.Sprintf("%s, %s, %d dpi", tag, variant, dpi)
				page, err := labels.Layout(template, content, dpi)
				if err != nil {
					t.Errorf("%s: %v", name, err)
					continue
				}
				check(t, name, content, page)
				done++
			}
		}
	}
	if done < 150 {
		t.Errorf("only %d layouts were checked", done)
	}
}

// Nothing overlaps, nothing is too small, all is on the tag, quiet zones are clear.
func TestEveryLayoutIsFaultless(t *testing.T) {
	eachLayout(t, func(t *testing.T, name string, _ templates.Content, p labels.Page) {
		if faults := p.Faults(); faults != nil {
			t.Errorf("%s:\n%s", name, strings.Join(faults, "\n"))
		}
	})
}

// Every tag carries the piece's number in at least one symbol, of at least three dots
// a module; tags that lie loose carry two symbologies.
func TestEveryTagCarriesItsNumber(t *testing.T) {
	eachLayout(t, func(t *testing.T, name string, c templates.Content, p labels.Page) {
		kinds := map[symbol.Symbology]bool{}
		for _, s := range p.Symbols {
			if !strings.Contains(s.Choice.Symbol.Text, c.Number) {
				t.Errorf("%s: symbol %q lacks the number", name, s.Choice.Symbol.Text)
			}
			if s.Choice.Dots < symbol.DesignDots {
				t.Errorf("%s: %d dots a module", name, s.Choice.Dots)
			}
			kinds[s.Choice.Symbol.Symbology] = true
		}
		two := strings.HasPrefix(name, "tie-on") || strings.HasPrefix(name, "pair") || strings.HasPrefix(name, "trunk") || strings.HasPrefix(name, "bin")
		if len(kinds) == 0 || two && len(kinds) < 2 {
			t.Errorf("%s: symbologies %v", name, kinds)
		}
	})
}

// tieOn lays out the tag of a removed runner.
func tieOn(t *testing.T, c templates.Content, dpi geometry.DPI) labels.Page {
	t.Helper()
	template, err := templates.Embedded().Tag("tie-on")
	if err != nil {
		t.Fatal(err)
	}
	page, err := labels.Layout(template, c, dpi)
	if err != nil {
		t.Fatal(err)
	}
	return page
}

// run is the text run that says something.
func run(t *testing.T, p labels.Page, text string) labels.TextRun {
	t.Helper()
	for _, r := range p.Texts {
		if r.Text == text {
			return r
		}
	}
	t.Fatalf("the page does not say %q", text)
	return labels.TextRun{}
}

// The sizes follow what matters: sweater, side, date, then the rest; the band of an
// unsafe runner runs across the whole tag; the bar stands on its side's edge.
func TestTieOnShowsWhatMattersFirst(t *testing.T) {
	c := templates.Sample()
	p := tieOn(t, c, 203)
	order := []string{"17", "LEFT", "28 NOV 2025", "9.40 mm", "low · Rime Point 27 NOV"}
	for i := 1; i < len(order); i++ {
		if larger, smaller := run(t, p, order[i-1]), run(t, p, order[i]); larger.Capital < smaller.Capital {
			t.Errorf("%q is smaller than %q", larger.Text, smaller.Text)
		}
	}
	if sweater := run(t, p, "17"); sweater.Capital < 14 {
		t.Errorf("the sweater number is %s high, want 14 mm", sweater.Capital)
	}
	if bar := p.Ink[0]; len(p.Ink) != 1 || bar.X != 0 || bar.Height != p.Height {
		t.Errorf("a left runner's ink is %v, want one bar on the left edge", p.Ink)
	}
	c.Side = "right"
	if p := tieOn(t, c, 203); len(p.Ink) != 1 || p.Ink[0].Right() != p.Width {
		t.Errorf("a right runner's ink is %v, want one bar on the right edge", p.Ink)
	}
}

func TestUnsafeBandRunsAcrossTheTag(t *testing.T) {
	c := templates.Sample()
	c.Unsafe = true
	p := tieOn(t, c, 203)
	if band := run(t, p, "DO NOT SKATE"); !band.White || band.Capital < 5 {
		t.Errorf("band %+v", band)
	}
	// the lowest rows of the band, below the hole, are black from edge to edge
	row := templates.Box{Y: 8, Height: 0.2}.Y.Dots(203)
	black := geometry.Dot(0)
	for x := range p.Width {
		for _, r := range p.Ink {
			if r.Contains(geometry.Rect{X: x, Y: row, Width: 1, Height: 1}) {
				black++
				break
			}
		}
	}
	if black != p.Width {
		t.Errorf("%d of %d dots across the band are black", black, p.Width)
	}
}

// A cracked or bent piece says so on whatever tag it gets, white on black; a sound
// one never does.
func TestEveryPieceNotToBeSkatedOnSaysSo(t *testing.T) {
	noPiece := map[string]bool{"trunk": true, "bin": true, "action": true}
	eachLayout(t, func(t *testing.T, name string, c templates.Content, p labels.Page) {
		tag, _, _ := strings.Cut(name, ",")
		said := ""
		for _, r := range p.Texts {
			if r.White {
				said += r.Text + " "
			}
		}
		if says := strings.Contains(said, "DO NOT SKATE"); says != (c.Unsafe && !noPiece[tag]) {
			t.Errorf("%s: unsafe %v, in white on black %q", name, c.Unsafe, said)
		}
	})
}

// The two symbols of a tie-on tag stand at its two ends.
func TestTwoSymbolsAtTwoEnds(t *testing.T) {
	p := tieOn(t, templates.Sample(), 203)
	if len(p.Symbols) != 2 {
		t.Fatalf("%d symbols", len(p.Symbols))
	}
	for _, s := range p.Symbols {
		switch s.Choice.Symbol.Symbology {
		case symbol.QR:
			if s.Area.Right() > p.Width/2 || s.Choice.Symbol.Text != templates.Sample().Tally {
				t.Errorf("QR at %v says %q", s.Area, s.Choice.Symbol.Text)
			}
		case symbol.DataMatrix:
			if s.Area.X < p.Width*3/4 || s.Choice.Symbol.Text != templates.Sample().Number {
				t.Errorf("Data Matrix at %v says %q", s.Area, s.Choice.Symbol.Text)
			}
		}
	}
}

func TestLayoutTellsWhatItCouldNotShow(t *testing.T) {
	template, err := templates.Embedded().Tag("pair")
	if err != nil {
		t.Fatal(err)
	}
	c := templates.Sample()
	c.Player = "Ida 😀 سلام " + strings.Repeat("Long", 20)
	p, err := labels.Layout(template, c, 203)
	if err != nil {
		t.Fatal(err)
	}
	told := strings.Join(p.Notices, "\n")
	for _, want := range []string{"U+1F600", "U+0633", "cut short"} {
		if !strings.Contains(told, want) {
			t.Errorf("notices %q do not tell %q", told, want)
		}
	}
	for _, r := range p.Texts {
		if strings.ContainsRune(r.Text, '😀') {
			t.Errorf("%q would print as nothing", r.Text)
		}
	}
}

func TestLayoutRefuses(t *testing.T) {
	template, err := templates.Embedded().Tag("tie-on")
	if err != nil {
		t.Fatal(err)
	}
	for _, dpi := range []geometry.DPI{0, -203, 72, 100000} {
		if _, err := labels.Layout(template, templates.Sample(), dpi); err == nil {
			t.Errorf("%d dpi was taken", dpi)
		}
	}
	c := templates.Sample()
	c.Tally = strings.Repeat("A", 900)
	if _, err := labels.Layout(template, c, 203); err == nil || !strings.Contains(err.Error(), "needs") {
		t.Errorf("a tally of 900 characters: %v", err)
	}
	c = templates.Sample()
	c.Sweater = "123456"
	if _, err := labels.Layout(template, c, 203); err == nil || !strings.Contains(err.Error(), "too long") {
		t.Errorf("a sweater number of six digits: %v", err)
	}
}

// A check that cannot fail proves nothing: each fault is made and must be found.
func TestFaultsFindsEachFault(t *testing.T) {
	breaks := map[string]func(p *labels.Page){
		"outside":       func(p *labels.Page) { p.Texts[0].Ink.X = p.Width - 1 },
		"below its":     func(p *labels.Page) { p.Texts[0].Least = p.Texts[0].Capital + 1 },
		"modules of":    func(p *labels.Page) { p.Symbols[0].Choice.Dots = 1 },
		"overlaps text": func(p *labels.Page) { p.Texts[1].Ink = p.Texts[0].Ink },
		"quiet zone":    func(p *labels.Page) { p.Ink = append(p.Ink, p.Symbols[0].Area) },
		"a hole":        func(p *labels.Page) { p.Holes[0] = p.Symbols[1].Area },
		"ink in a hole": func(p *labels.Page) { p.Ink = append(p.Ink, p.Holes[0]) },
		"on a bar":      func(p *labels.Page) { p.Ink = append(p.Ink, p.Texts[0].Ink) },
		"its band":      func(p *labels.Page) { p.Texts[0].White = true },
		"rectangle 0":   func(p *labels.Page) { p.Ink[0].X = -1 },
	}
	for want, spoil := range breaks {
		p := tieOn(t, templates.Sample(), 203)
		spoil(&p)
		if told := strings.Join(p.Faults(), "\n"); !strings.Contains(told, want) {
			t.Errorf("a fault was not found: %q is not in %q", want, told)
		}
	}
}
