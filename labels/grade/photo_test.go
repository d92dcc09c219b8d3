package grade

import (
	"image"
	"image/color"
	"math"
	"testing"

	"steeltally/labels/reader/modules"
	"steeltally/labels/reader/picture"
	"steeltally/labels/symbol"
)

// Test pictures show a module on modulePixels pixels, with four modules around.
const (
	modulePixels = 20
	around       = 4
	paper, ink   = 0.85, 0.10 // reflectance
)

func matrix(t *testing.T) symbol.Symbol {
	t.Helper()
	s, err := symbol.EncodeDataMatrix("1000042744", symbol.Square)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func qr(t *testing.T) symbol.Symbol {
	t.Helper()
	s, err := symbol.EncodeQR("1000042744", "H", 1)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// photo is a picture whose reflectance is known at every module.
type photo struct {
	*image.Gray
	symbol symbol.Symbol
}

func newPhoto(s symbol.Symbol) photo {
	p := photo{image.NewGray(image.Rect(0, 0, (s.Columns+2*around)*modulePixels, (s.Rows+2*around)*modulePixels)), s}
	for row := -around; row < s.Rows+around; row++ {
		for column := -around; column < s.Columns+around; column++ {
			if s.Dark(column, row) {
				p.paint(column, row, ink)
			} else {
				p.paint(column, row, paper)
			}
		}
	}
	return p
}

// paint gives a module a reflectance.
func (p photo) paint(column, row int, reflectance float64) {
	p.area(p.module(column, row), reflectance)
}

func (p photo) module(column, row int) image.Rectangle {
	x, y := (column+around)*modulePixels, (row+around)*modulePixels
	return image.Rect(x, y, x+modulePixels, y+modulePixels)
}

func (p photo) area(r image.Rectangle, reflectance float64) {
	value := color.Gray{Y: uint8(math.Round(255 * toValue(reflectance)))}
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			p.SetGray(x, y, value)
		}
	}
}

// place is where the symbol lies; a module may be stretched to another width.
func (p photo) place() Place {
	left, top := float64(around*modulePixels), float64(around*modulePixels)
	right, bottom := left+float64(p.symbol.Columns*modulePixels), top+float64(p.symbol.Rows*modulePixels)
	return Place{
		p.symbol.Symbology, picture.Quad{{X: left, Y: top}, {X: right, Y: top}, {X: right, Y: bottom}, {X: left, Y: bottom}},
		p.symbol.Columns, p.symbol.Rows,
	}
}

func (p photo) invert(c modules.Cell) {
	if p.symbol.Dark(c.Column, c.Row) {
		p.paint(c.Column, c.Row, paper)
	} else {
		p.paint(c.Column, c.Row, ink)
	}
}
