package grade

import (
	"image"
	"testing"

	"steeltally/labels"
	"steeltally/labels/png"
	"steeltally/templates"
)

// TestEmbeddedTags grades every symbol of the program's own tags as printed at
// 203 dpi: B or better, as they are designed for.
func TestEmbeddedTags(t *testing.T) {
	graded := 0
	for _, name := range templates.Embedded().Tags() {
		template, err := templates.Embedded().Tag(name)
		if err != nil {
			t.Fatal(err)
		}
		page, err := labels.Layout(template, templates.Sample(), 203)
		if err != nil {
			t.Fatal(err)
		}
		img, err := png.Draw(page)
		if err != nil {
			t.Fatal(err)
		}
		for _, placed := range page.Symbols {
			s, area := placed.Choice.Symbol, placed.Modules()
			at := image.Rect(int(area.X), int(area.Y), int(area.Right()), int(area.Bottom()))
			r, err := Simulated(img, Drawn{s.Symbology, at, s.Columns, s.Rows}, UsualPrint())
			if err != nil {
				t.Fatal(err)
			}
			t.Logf("%s, %s: %s", name, s.Symbology.Title(), r.Overall.Letter())
			if r.Overall < 3 || r.Text != s.Text {
				t.Errorf("%s, %s: %+v", name, s.Symbology.Title(), r)
			}
			graded++
		}
	}
	if graded < 10 {
		t.Errorf("only %d symbols were graded", graded)
	}
}
