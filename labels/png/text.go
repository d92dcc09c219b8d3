package png

import (
	"image"
	"math"

	"steeltally/geometry"
	"steeltally/labels"
	"steeltally/labels/lettering"
)

// nudge is where in its dot a text's pen starts, as in the PDF.
const (
	nudge         = 0.25
	pointsPerInch = 72
)

// writer writes text into a picture and keeps the letters that it has drawn.
type writer struct {
	picture   *image.Paletted
	outliners map[lettering.Style]*lettering.Outliner
	dpi       geometry.DPI
	cache     map[glyphKey]*glyph
}

// glyphKey names a drawn letter.
type glyphKey struct {
	style  lettering.Style
	em     int
	turned bool
	r      rune
}

// text writes a run, each letter at a whole dot as printers' renderers place it.
func (w *writer) text(run labels.TextRun) error {
	face := lettering.Of(run.Style)
	advance := 0
	for _, r := range run.Text {
		drawn, err := w.glyph(glyphKey{run.Style, int(run.Em), run.Turned, r})
		if err != nil {
			return err
		}
		w.letter(drawn, run, penOf(run, advance, w.dpi))
		measure, _ := face.Glyph(r)
		advance += measure.Advance
	}
	return nil
}

// penOf is the dot in which a letter's pen starts, after an advance in thousandths of
// an em. The lengths are rounded as they are in the PDF: places to hundredths of a
// point, sizes to thousandths.
func penOf(run labels.TextRun, advance int, dpi geometry.DPI) int {
	points := pointsPerInch / float64(dpi)
	start := math.Round((float64(run.X)+nudge)*points*100) / 100
	size := math.Round(float64(run.Em)*points*1000) / 1000
	way := size * float64(advance) / lettering.Em
	if run.Turned {
		way = -way
	}
	return int(math.Floor((start + way) / points))
}

// letter copies a letter's dots to its place.
func (w *writer) letter(g *glyph, run labels.TextRun, pen int) {
	colour := ink
	if run.White {
		colour = paper
	}
	for i, black := range g.black {
		if !black {
			continue
		}
		w.dot(pen+g.left+i%g.width, int(run.Baseline)+i/g.width-g.top-1, colour)
	}
}

// dot sets one dot that lies on the page.
func (w *writer) dot(x, y int, colour uint8) {
	if (image.Point{X: x, Y: y}).In(w.picture.Bounds()) {
		w.picture.Pix[y*w.picture.Stride+x] = colour
	}
}

// glyph is a letter's dots.
func (w *writer) glyph(key glyphKey) (*glyph, error) {
	if g, ok := w.cache[key]; ok {
		return g, nil
	}
	outliner, err := w.outliner(key.style)
	if err != nil {
		return nil, err
	}
	outline, err := outliner.Outline(key.r)
	if err != nil {
		return nil, err
	}
	g := newGlyph(outline, size{key.em, outliner.UnitsPerEm(), key.turned})
	w.cache[key] = g
	return g, nil
}

// outliner opens a style's outlines once.
func (w *writer) outliner(style lettering.Style) (*lettering.Outliner, error) {
	if o, ok := w.outliners[style]; ok {
		return o, nil
	}
	o, err := lettering.NewOutliner(style)
	if err == nil {
		w.outliners[style] = o
	}
	return o, err
}
