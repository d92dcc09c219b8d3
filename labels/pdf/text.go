package pdf

import (
	"fmt"

	"steeltally/geometry"
	"steeltally/labels"
	"steeltally/labels/lettering"
)

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
