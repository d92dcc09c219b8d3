// Package pdf draws pages as a vector PDF that asks not to be scaled. The same pages
// give the same bytes.
package pdf

import (
	"errors"
	"fmt"
	"io"
	"math"

	"github.com/signintech/gopdf"

	"steeltally/geometry"
	"steeltally/labels"
	"steeltally/labels/lettering"
)

const (
	pointsPerInch = 72
	pointStep     = 0.01 // the PDF writer keeps two decimals
	// inset keeps each rectangle off its neighbours' dots, as a part of a dot: renderers
	// blacken every dot that a shape touches, and coordinates are rounded.
	inset = 0.15
	// nudge moves a text's pen into its dot, so that rounding never lands it in the
	// dot before.
	nudge = 0.25

	family = "tag"
)

// Document is a PDF in the making.
type Document struct {
	pdf   gopdf.GoPdf
	pages int
	state state
}

// state is what the last drawing left set, to say it only once.
type state struct {
	style lettering.Style
	em    float64
	white bool
	fresh bool
}

// New starts an empty document.
func New() (*Document, error) {
	d := &Document{}
	d.pdf.Start(gopdf.Config{PageSize: *gopdf.PageSizeA4})
	for _, style := range []lettering.Style{lettering.Regular, lettering.Bold} {
		option := gopdf.TtfOption{Style: fontStyle(style), OnGlyphNotFoundSubstitute: func(rune) rune { return lettering.Placeholder }}
		if err := d.pdf.AddTTFFontDataWithOption(family, lettering.TTF(style), option); err != nil {
			return nil, fmt.Errorf("the embedded font: %w", err)
		}
	}
	return d, nil
}

// fontStyle is a style in the PDF writer's numbers.
func fontStyle(s lettering.Style) int {
	if s == lettering.Bold {
		return gopdf.Bold
	}
	return gopdf.Regular
}

// ErrEmpty says that a page or a document would have nothing on it.
var ErrEmpty = errors.New("nothing to print")

// Add draws a page.
func (d *Document) Add(p labels.Page) error {
	if len(p.Ink)+len(p.Marks)+len(p.Symbols)+len(p.Texts) == 0 {
		return fmt.Errorf("page %d: %w", d.pages+1, ErrEmpty)
	}
	size := gopdf.Rect{W: floorPoint(points(float64(p.Width), p.DPI)), H: floorPoint(points(float64(p.Height), p.DPI))}
	d.pdf.AddPageWithOption(gopdf.PageOption{PageSize: &size})
	d.pages++
	d.state = state{fresh: true}
	d.pdf.SetGrayFill(0)
	for _, list := range [][]geometry.Rect{p.Ink, p.Marks} {
		for _, r := range list {
			d.rect(r, p.DPI)
		}
	}
	for _, s := range p.Symbols {
		for _, r := range s.Rects() {
			d.rect(r, p.DPI)
		}
	}
	for _, run := range p.Texts {
		if err := d.text(run, p.DPI); err != nil {
			return err
		}
	}
	return nil
}

// WriteTo writes the document; it can be written once. It asks viewers and printers
// not to scale it.
func (d *Document) WriteTo(w io.Writer) (int64, error) {
	if d.pages == 0 {
		return 0, ErrEmpty
	}
	out := newSink(w)
	if _, err := d.pdf.WriteTo(out); err != nil {
		return out.written, err
	}
	out.preferUnscaled()
	return out.written, out.err
}

// rect fills a rectangle of whole dots.
func (d *Document) rect(r geometry.Rect, dpi geometry.DPI) {
	d.pdf.RectFromUpperLeftWithStyle(
		points(float64(r.X)+inset, dpi), points(float64(r.Y)+inset, dpi),
		points(float64(r.Width)-2*inset, dpi), points(float64(r.Height)-2*inset, dpi), "F")
}

// points is a length of dots in points.
func points(dots float64, dpi geometry.DPI) float64 { return dots * pointsPerInch / float64(dpi) }

// floorPoint rounds a page's side down to what the file can say, so that a renderer
// does not add a row of dots for the rest.
func floorPoint(l float64) float64 { return math.Floor(l/pointStep-0.1) * pointStep }

// halfTurn is the angle of a text that is upside down, in degrees.
const halfTurn = 180

// text writes a run. Its letters must be in the face: the PDF writer would leave a
// missing one out without a word.
func (d *Document) text(run labels.TextRun, dpi geometry.DPI) error {
	if err := covered(run.Text, run.Style); err != nil {
		return err
	}
	em := points(float64(run.Em), dpi)
	if d.state.fresh || d.state.style != run.Style || d.state.em != em {
		if err := d.pdf.SetFontWithStyle(family, fontStyle(run.Style), em); err != nil {
			return fmt.Errorf("text %q: %w", run.Text, err)
		}
	}
	if d.state.fresh || d.state.white != run.White {
		d.pdf.SetGrayFill(grey(run.White))
	}
	d.state = state{style: run.Style, em: em, white: run.White}
	x, y := points(float64(run.X)+nudge, dpi), points(float64(run.Baseline)+nudge, dpi)
	if run.Turned {
		d.pdf.Rotate(halfTurn, x, y)
		defer d.pdf.RotateReset()
	}
	d.pdf.SetXY(x, y)
	return d.pdf.Text(run.Text)
}

// grey is black or white in the PDF writer's scale.
func grey(white bool) float64 {
	if white {
		return 1
	}
	return 0
}

// covered refuses letters that the face lacks.
func covered(text string, style lettering.Style) error {
	face := lettering.Of(style)
	for _, r := range text {
		if _, ok := face.Glyph(r); !ok {
			return fmt.Errorf("text %q: the face has no letter %U", text, r)
		}
	}
	return nil
}
