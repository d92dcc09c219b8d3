package report

import (
	"fmt"

	"steeltally/geometry"
	"steeltally/labels"
	"steeltally/labels/lettering"
)

// writer writes pages from top to bottom.
type writer struct {
	paper   Paper
	dpi     geometry.DPI
	title   string
	pages   []labels.Page
	y       geometry.Millimetre // the next line's top
	missing map[rune]bool
}

// width is the room between the margins.
func (w *writer) width() geometry.Millimetre { return w.paper.Width - 2*margin }

// bottom is where the lines of a page end.
func (w *writer) bottom() geometry.Millimetre { return w.paper.Height - margin - lineDistance }

// page is the page being written.
func (w *writer) page() *labels.Page { return &w.pages[len(w.pages)-1] }

// newPage starts a page.
func (w *writer) newPage() {
	w.pages = append(w.pages, labels.Page{
		Name: w.title, DPI: w.dpi, Width: w.paper.Width.Dots(w.dpi), Height: w.paper.Height.Dots(w.dpi),
	})
	w.y = margin
}

// room starts a new page unless a height is left on this one; it tells whether it did.
func (w *writer) room(height geometry.Millimetre) bool {
	if w.y+height <= w.bottom() {
		return false
	}
	w.newPage()
	return true
}

// skip leaves a height empty.
func (w *writer) skip(height geometry.Millimetre) { w.y += height }

// line writes one line across the page, cut short if it is too long.
func (w *writer) line(style lettering.Style, height geometry.Millimetre, text string) {
	w.room(height + lineDistance)
	face := lettering.Of(style)
	w.put(face, height, margin, w.y, face.Shorten(w.clean(face, text), w.units(face, height, w.width())))
	w.y += height + lineDistance - textHeight
}

// paragraph writes a text in as many lines as it takes.
func (w *writer) paragraph(text string) {
	face := lettering.Of(lettering.Regular)
	for _, line := range face.Break(w.clean(face, text), w.units(face, textHeight, w.width())) {
		w.line(lettering.Regular, textHeight, line)
	}
}

// clean makes a text printable and remembers what it lost.
func (w *writer) clean(face *lettering.Face, text string) string {
	clean, replaced := face.Clean(text)
	for _, r := range replaced {
		if w.missing == nil {
			w.missing = map[rune]bool{}
		}
		if !w.missing[r] {
			w.missing[r] = true
			w.page().Notices = append(w.page().Notices, fmt.Sprintf("no letter for %U: a box stands for it", r))
		}
	}
	return clean
}

// em is the size whose capitals have a height.
func (w *writer) em(face *lettering.Face, height geometry.Millimetre) geometry.Dot {
	return (height * lettering.Em / geometry.Millimetre(face.CapHeight)).Dots(w.dpi)
}

// units is a width in thousandths of an em.
func (w *writer) units(face *lettering.Face, height, width geometry.Millimetre) int {
	return int(width.Dots(w.dpi)) * lettering.Em / int(w.em(face, height))
}

// put writes a clean line with its capitals' top left at x, y.
func (w *writer) put(face *lettering.Face, height, x, y geometry.Millimetre, text string) {
	if text == "" {
		return
	}
	em := w.em(face, height)
	extent := face.Measure(text)
	scale := func(units int) geometry.Dot { return geometry.Dot(units) * em / lettering.Em }
	run := labels.TextRun{
		Text: text, Style: face.Style, Em: em, Capital: height, Least: height,
		X: x.Dots(w.dpi) - scale(extent.Left), Baseline: (y + height).Dots(w.dpi),
	}
	run.Ink = geometry.Rect{X: x.Dots(w.dpi), Y: run.Baseline - scale(extent.Above), Width: scale(extent.Width()), Height: scale(extent.Above + extent.Below)}
	w.page().Texts = append(w.page().Texts, run)
}

// rule draws a line across a width.
func (w *writer) rule(x, y, width, thickness geometry.Millimetre) {
	w.page().Marks = append(w.page().Marks, geometry.Rect{
		X: x.Dots(w.dpi), Y: y.Dots(w.dpi), Width: width.Dots(w.dpi), Height: max(thickness.Dots(w.dpi), 1),
	})
}

// finish numbers the pages.
func (w *writer) finish() []labels.Page {
	face := lettering.Of(lettering.Regular)
	for i := range w.pages {
		foot := &writer{paper: w.paper, dpi: w.dpi, pages: w.pages[i : i+1]}
		foot.put(face, textHeight, margin, w.paper.Height-margin, w.clean(face, fmt.Sprintf("%s   page %d of %d", w.title, i+1, len(w.pages))))
	}
	return w.pages
}
