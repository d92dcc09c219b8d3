package png_test

import (
	"bytes"
	"encoding/binary"
	"image"
	stdpng "image/png"
	"testing"

	"steeltally/geometry"
	"steeltally/labels"
	"steeltally/labels/png"
	"steeltally/templates"
)

// tag lays out an embedded template with the sample content.
func tag(t *testing.T, name string, dpi geometry.DPI) labels.Page {
	t.Helper()
	template, err := templates.Embedded().Tag(name)
	if err != nil {
		t.Fatal(err)
	}
	page, err := labels.Layout(template, templates.Sample(), dpi)
	if err != nil {
		t.Fatal(err)
	}
	return page
}

// draw draws a page and tells which of its dots are black.
func draw(t *testing.T, p labels.Page) func(x, y geometry.Dot) bool {
	t.Helper()
	picture, err := png.Draw(p)
	if err != nil {
		t.Fatal(err)
	}
	if picture.Bounds() != image.Rect(0, 0, int(p.Width), int(p.Height)) {
		t.Fatalf("picture of %v for a page of %d x %d dots", picture.Bounds(), p.Width, p.Height)
	}
	return func(x, y geometry.Dot) bool { return picture.ColorIndexAt(int(x), int(y)) == 1 }
}

// Each module of each symbol is a square of dots, black or white, in its place.
func TestSymbolsAreDrawnModuleByModule(t *testing.T) {
	for _, name := range []string{"tie-on", "tie-on-folded", "pair", "sleeve-strip"} {
		p := tag(t, name, 203)
		black := draw(t, p)
		for _, s := range p.Symbols {
			at, dots := s.Modules(), s.Choice.Dots
			sides, above := s.Choice.Symbol.Quiet()
			for y := s.Area.Y; y < s.Area.Bottom(); y++ {
				for x := s.Area.X; x < s.Area.Right(); x++ {
					column, row := int((x-s.Area.X)/dots)-sides, int((y-s.Area.Y)/dots)-above
					if black(x, y) != s.Choice.Symbol.Dark(column, row) {
						t.Fatalf("%s: dot %d, %d of %s at %v is wrong", name, x, y, s.Choice.Symbol.Symbology, at)
					}
				}
			}
		}
	}
}

// Letters are drawn where the layout says that their ink is, turned ones too, and
// reach each edge of it: within a dot, for the rounding.
func TestLettersFillTheirInk(t *testing.T) {
	p := tag(t, "tie-on-folded", 203)
	p.Ink, p.Marks, p.Symbols = nil, nil, nil
	for _, run := range p.Texts {
		one := p
		one.Texts = []labels.TextRun{run}
		black := draw(t, one)
		found := geometry.Rect{X: p.Width, Y: p.Height}
		right, bottom := geometry.Dot(-1), geometry.Dot(-1)
		for y := range p.Height {
			for x := range p.Width {
				if black(x, y) {
					found.X, found.Y = min(found.X, x), min(found.Y, y)
					right, bottom = max(right, x+1), max(bottom, y+1)
				}
			}
		}
		found.Width, found.Height = right-found.X, bottom-found.Y
		if !run.Ink.Inset(-1).Contains(found) || !found.Inset(-3).Contains(run.Ink) {
			t.Errorf("%q: ink at %v, the layout says %v", run.Text, found, run.Ink)
		}
	}
	if len(p.Texts) < 8 {
		t.Errorf("only %d texts were looked at", len(p.Texts))
	}
}

// White letters are cut out of their band.
func TestBandIsReversed(t *testing.T) {
	template, err := templates.Embedded().Tag("tie-on")
	if err != nil {
		t.Fatal(err)
	}
	c := templates.Sample()
	c.Unsafe = true
	p, err := labels.Layout(template, c, 203)
	if err != nil {
		t.Fatal(err)
	}
	black := draw(t, p)
	for _, run := range p.Texts {
		if !run.White {
			continue
		}
		white := 0
		for y := run.Ink.Y; y < run.Ink.Bottom(); y++ {
			for x := run.Ink.X; x < run.Ink.Right(); x++ {
				if !black(x, y) {
					white++
				}
			}
		}
		share := float64(white) / float64(run.Ink.Width*run.Ink.Height)
		if share < 0.2 || share > 0.6 {
			t.Errorf("%.0f %% of %q's box is white", 100*share, run.Text)
		}
		return
	}
	t.Error("no white text on an unsafe runner's tag")
}

// The file is a picture that any reader reads, with the resolution that the dots have.
func TestFileSaysItsResolution(t *testing.T) {
	p := tag(t, "tie-on", 203)
	var file bytes.Buffer
	if err := png.Write(&file, p); err != nil {
		t.Fatal(err)
	}
	picture, err := stdpng.Decode(bytes.NewReader(file.Bytes()))
	if err != nil {
		t.Fatal(err)
	}
	if picture.Bounds().Dx() != int(p.Width) || picture.Bounds().Dy() != int(p.Height) {
		t.Errorf("picture of %v", picture.Bounds())
	}
	at := bytes.Index(file.Bytes(), []byte("pHYs"))
	if at < 0 {
		t.Fatal("no pHYs chunk")
	}
	if perMetre := binary.BigEndian.Uint32(file.Bytes()[at+4:]); perMetre != 7992 { // 203 / 0.0254
		t.Errorf("%d dots a metre, want 7992", perMetre)
	}
}

func TestDrawRefuses(t *testing.T) {
	for _, p := range []labels.Page{{}, {Width: -1, Height: 5}, {Width: 1 << 20, Height: 1 << 20}} {
		if _, err := png.Draw(p); err == nil {
			t.Errorf("a page of %d x %d dots was drawn", p.Width, p.Height)
		}
	}
	p := tag(t, "tie-on", 203)
	p.Texts[0].Text = "😀"
	if _, err := png.Draw(p); err == nil {
		t.Error("a letter that the face lacks was drawn")
	}
}
