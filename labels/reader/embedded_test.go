package reader_test

import (
	"fmt"
	"image"
	"image/draw"
	"math/rand/v2"
	"testing"

	"steeltally/geometry"
	"steeltally/labels"
	"steeltally/labels/png"
	"steeltally/labels/reader"
	"steeltally/templates"
)

// embeddedPage lays out one of the program's own tags and draws it.
func embeddedPage(t testing.TB, name string, content templates.Content, dpi geometry.DPI) (labels.Page, image.Image) {
	t.Helper()
	template, err := templates.Embedded().Tag(name)
	if err != nil {
		t.Fatal(err)
	}
	page, err := labels.Layout(template, content, dpi)
	if err != nil {
		t.Fatal(err)
	}
	img, err := png.Draw(page)
	if err != nil {
		t.Fatal(err)
	}
	return page, img
}

// embeddedTag is the program's own tie-on tag as it is printed at 203 dpi.
func embeddedTag(t testing.TB, random *rand.Rand, running int) mockTag {
	t.Helper()
	tag := blankTag(running)
	tag.text = fmt.Sprintf("T1.%s.2.117.17L.260112.260128.1190.940.%d.205.32.LOW.%02d", tag.number, 10+random.IntN(80), random.IntN(97))
	content := templates.Sample()
	content.Number, content.Tally = tag.number, tag.text
	content.Side, content.Unsafe = []string{"left", "right"}[random.IntN(2)], random.IntN(5) == 0
	_, img := embeddedPage(t, "tie-on", content, 203)
	draw.Draw(tag.dots, tag.dots.Rect, img, img.Bounds().Min, draw.Src)
	return tag
}

// TestEmbeddedTags reads every symbol of every tag of the program, at each printer's
// resolution.
func TestEmbeddedTags(t *testing.T) {
	symbols := 0
	for _, name := range templates.Embedded().Tags() {
		for _, dpi := range []geometry.DPI{203, 300} {
			page, img := embeddedPage(t, name, templates.Sample(), dpi)
			found := read(t, img, reader.Options{})
			if len(found) != len(page.Symbols) {
				t.Errorf("%s at %d dpi: %d symbols, read %d", name, dpi, len(page.Symbols), len(found))
			}
			for _, placed := range page.Symbols {
				symbols++
				if !holds(found, placed) {
					t.Errorf("%s at %d dpi: %q was not read", name, dpi, placed.Choice.Symbol.Text)
				}
			}
		}
	}
	if symbols < 20 {
		t.Errorf("only %d symbols were looked for", symbols)
	}
}

// holds tells whether a symbol was read with its text and where it is.
func holds(found []reader.Found, placed labels.PlacedSymbol) bool {
	area := placed.Modules()
	middle := image.Pt(int(area.X+area.Width/2), int(area.Y+area.Height/2))
	for _, f := range found {
		center := f.Outline.Center()
		away := image.Pt(int(center.X), int(center.Y)).Sub(middle)
		if f.Text == placed.Choice.Symbol.Text && f.Symbology == placed.Choice.Symbol.Symbology && away.X*away.X+away.Y*away.Y < 10 {
			return true
		}
	}
	return false
}
