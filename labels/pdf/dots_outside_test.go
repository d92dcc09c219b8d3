//go:build outside

package pdf_test

import (
	"fmt"
	"testing"

	"steeltally/geometry"
	"steeltally/labels"
	"steeltally/labels/png"
	"steeltally/templates"
)

// twoTags are a left and an unsafe right piece of a template on a sheet.
func twoTags(t *testing.T, library templates.Library, template, sheet string, dpi geometry.DPI) labels.Page {
	t.Helper()
	tag, err := library.Tag(template)
	if err != nil {
		t.Fatal(err)
	}
	on, err := library.Sheet(sheet)
	if err != nil {
		t.Fatal(err)
	}
	var tags []labels.Page
	for i := range min(2, on.Cells()) {
		c := templates.Sample()
		if i == 1 {
			c.Side, c.Unsafe = "right", true
		}
		page, err := labels.Layout(tag, c, dpi)
		if err != nil {
			t.Fatal(err)
		}
		tags = append(tags, page)
	}
	pages, err := labels.Imposition{Sheet: on, Start: max(on.Cells()-1, 1)}.Impose(tags)
	if err != nil {
		t.Fatal(err)
	}
	return pages[0]
}

// Two renderers that we did not write put the same dots on paper as the preview:
// outside letters every dot, in letters all but a few at their edges, where renderers
// differ among themselves.
func TestDotsOfEveryTemplateAndSheet(t *testing.T) {
	library, compared := templates.Embedded(), 0
	for _, name := range library.Tags() {
		tag, err := library.Tag(name)
		if err != nil {
			t.Fatal(err)
		}
		for i, sheet := range library.FittingSheets(tag) {
			for j, dpi := range []geometry.DPI{203, 300, 600} {
				page := twoTags(t, library, name, sheet, dpi)
				file := document(t, page)
				for k, r := range renderers() {
					if i > 1 && (i+j+k)%8 != 0 {
						continue // the first two sheets everywhere, the others in turn
					}
					compareDots(t, fmt.Sprintf("%s on %s at %d dpi, %s", name, sheet, dpi, r.name), page, render(t, r, file, dpi), mostLetterDots(r))
					compared++
				}
			}
		}
	}
	t.Logf("%d renderings compared", compared)
	if compared < 200 {
		t.Errorf("only %d renderings were compared", compared)
	}
}

// mostLetterDots is how much of the letters' boxes may differ: little where the
// renderer, too, decides by the middle of a dot; more where it thins or greys edges.
func mostLetterDots(r renderer) float64 {
	if r.name == "poppler mono" {
		return 0.004
	}
	return 0.1
}

// compareDots holds a rendering against the preview.
func compareDots(t *testing.T, name string, p labels.Page, got raster, most float64) {
	t.Helper()
	want, err := png.Draw(p)
	if err != nil {
		t.Fatal(err)
	}
	if got.width != int(p.Width) || got.height != int(p.Height) {
		t.Errorf("%s: %d x %d dots, want %d x %d", name, got.width, got.height, p.Width, p.Height)
		return
	}
	letters := make([]bool, len(got.level))
	boxes := 0
	for _, run := range p.Texts {
		for y := max(run.Ink.Y-2, 0); y < min(run.Ink.Bottom()+2, p.Height); y++ {
			for x := max(run.Ink.X-2, 0); x < min(run.Ink.Right()+2, p.Width); x++ {
				letters[int(y)*got.width+int(x)] = true
				boxes++
			}
		}
	}
	outside, inside := 0, 0
	for i := range got.level {
		if got.black(i) == (want.Pix[i/got.width*want.Stride+i%got.width] == 1) {
			continue
		}
		if letters[i] {
			inside++
		} else {
			outside++
		}
	}
	if outside > 0 {
		t.Errorf("%s: %d dots differ outside letters", name, outside)
	}
	if float64(inside) > most*float64(boxes) {
		t.Errorf("%s: %d of %d dots differ in letters", name, inside, boxes)
	}
}
