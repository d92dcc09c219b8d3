package grade

import (
	"errors"
	"fmt"
	"image"

	"steeltally/labels/reader"
	"steeltally/labels/reader/modules"
	"steeltally/labels/reader/picture"
	"steeltally/labels/symbol"
)

// Place is a symbol and where it lies in a picture.
type Place struct {
	Symbology     symbol.Symbology
	Outline       picture.Quad // in pixels from the picture's top left, without quiet zone
	Columns, Rows int          // modules
}

// Of is the place of a symbol that was read.
func Of(f reader.Found) Place {
	return Place{f.Symbology, f.Outline, f.Columns, f.Rows}
}

var (
	// ErrKind says that a symbol is of a kind that the standard does not cover.
	ErrKind = errors.New("only QR Code and Data Matrix symbols are graded")
	// ErrPlace says that the symbol does not lie in the picture.
	ErrPlace = errors.New("the symbol's corners do not enclose a part of the picture")
	// ErrTooCoarse says that a picture shows the modules too small to measure them.
	ErrTooCoarse = errors.New("the picture shows a module on fewer than 4 pixels: scan at a higher resolution, or take the photograph from nearer")
)

// leastModule is the side of a module, in pixels, that an aperture of 0.8 of it
// still holds several pixels of.
const leastModule = 4

// Measure grades the symbol at a place. A symbol that can't be read with a single
// threshold is graded 0 for that, and has no measure of its codewords.
func Measure(img image.Image, p Place) (Report, error) {
	if p.Symbology != symbol.QR && p.Symbology != symbol.DataMatrix || p.Columns < 8 || p.Rows < 8 {
		return Report{}, fmt.Errorf("grading a %s symbol: %w", p.Symbology.Title(), ErrKind)
	}
	if img.Bounds().Empty() || !p.Outline.Convex() || !p.within(img.Bounds().Size()) {
		return Report{}, fmt.Errorf("grading a %s symbol: %w", p.Symbology.Title(), ErrPlace)
	}
	if p.module() < leastModule {
		return Report{}, fmt.Errorf("grading a %s symbol: %w", p.Symbology.Title(), ErrTooCoarse)
	}
	return measure(newSurface(img, p)), nil
}

// within tells whether the corners lie in a picture of that size.
func (p Place) within(size image.Point) bool {
	const slack = 1 // pixel, for a symbol at the very edge
	for _, c := range p.Outline {
		if c.X < -slack || c.Y < -slack || c.X > float64(size.X+slack) || c.Y > float64(size.Y+slack) {
			return false
		}
	}
	return true
}

func measure(s surface, p Place) Report {
	report := Report{Symbology: p.Symbology, Aperture: apertureOfAModule}
	spots := s.spots(p)
	bits := spots.bits()
	decoded, err := decode(p.Symbology, bits)
	if err != nil {
		report.add(Decode, 0, 0)
	} else {
		report.Text = decoded.Text
		report.add(Decode, 1, 4)
	}
	contrast := spots.contrast()
	report.add(SymbolContrast, contrast, contrastScale.atLeast(contrast))
	if err == nil {
		worst, level := spots.modulation(decoded.Blocks)
		report.add(Modulation, worst, level)
	}
	axial := p.axial()
	report.add(AxialUniformity, axial, axialScale.atMost(axial))
	shift := s.gridShift(p, bits, spots.threshold())
	report.add(GridUniformity, shift, gridScale.atMost(shift))
	if err == nil {
		spare := decoded.Spare()
		report.add(UnusedCorrection, spare, spareScale.atLeast(spare))
	}
	dark := spots.darkQuiet()
	report.add(QuietZone, dark, quietScale.atMost(dark))
	return report
}

func decode(kind symbol.Symbology, m *modules.Matrix) (modules.Decoded, error) {
	if kind == symbol.QR {
		return modules.DecodeQR(m)
	}
	return modules.DecodeDataMatrix(m)
}
