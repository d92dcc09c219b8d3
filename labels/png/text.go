package png

import (
	"image"
	"math"

	"steeltally/labels"
	"steeltally/labels/lettering"
)

// nudge is where in its dot a text's pen starts, as in the PDF.
const nudge = 0.25

// writer writes text into a picture and keeps the letters that it has drawn.
type writer struct {
	picture   *image.Paletted
	outliners map[lettering.Style]*lettering.Outliner
	cache     map[glyphKey][]span
}

// glyphKey names a drawn letter.
type glyphKey struct {
	style lettering.Style
	em    int
	r     rune
}

// text writes a run, each letter at a whole dot as printers' renderers place it.
func (w *writer) text(run labels.TextRun) error {
	face := lettering.Of(run.Style)
	advance := 0
	for _, r := range run.Text {
		list, err := w.glyph(glyphKey{run.Style, int(run.Em), r})
		if err != nil {
			return err
		}
		offset := float64(advance) * float64(run.Em) / lettering.Em
		w.letter(list, run, offset)
		g, _ := face.Glyph(r)
		advance += g.Advance
	}
	return nil
}

// letter copies a letter's dots to its place, upside down if the run is.
func (w *writer) letter(list []span, run labels.TextRun, offset float64) {
	colour := ink
	if run.White {
		colour = paper
	}
	pen := int(run.X) + int(math.Floor(nudge+offset))
	if run.Turned {
		pen = int(run.X) + int(math.Floor(nudge-offset))
	}
	for _, s := range list {
		for x := s.first; x <= s.last; x++ {
			if run.Turned {
				w.dot(pen-1-x, int(run.Baseline)-1-s.row, colour)
			} else {
				w.dot(pen+x, int(run.Baseline)+s.row, colour)
			}
		}
	}
}

// dot sets one dot that lies on the page.
func (w *writer) dot(x, y int, colour uint8) {
	if (image.Point{X: x, Y: y}).In(w.picture.Bounds()) {
		w.picture.Pix[y*w.picture.Stride+x] = colour
	}
}

// glyph is a letter's dots.
func (w *writer) glyph(key glyphKey) ([]span, error) {
	if list, ok := w.cache[key]; ok {
		return list, nil
	}
	outliner, err := w.outliner(key.style)
	if err != nil {
		return nil, err
	}
	outline, err := outliner.Outline(key.r, key.em)
	if err != nil {
		return nil, err
	}
	list := spans(edges(outline))
	w.cache[key] = list
	return list, nil
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
