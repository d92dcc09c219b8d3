package grade

import (
	"errors"
	"image"
	"math"
	"slices"
	"testing"

	"steeltally/labels/reader/modules"
	"steeltally/labels/reader/picture"
	"steeltally/labels/symbol"
)

func (p photo) measure(t *testing.T) Report {
	t.Helper()
	r, err := Measure(p, p.place())
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// measured is the parameter of that name; false where it was not measured.
func measured(r Report, name string) (Parameter, bool) {
	i := slices.IndexFunc(r.Parameters, func(p Parameter) bool { return p.Name == name })
	if i < 0 {
		return Parameter{}, false
	}
	return r.Parameters[i], true
}

// check wants a value within a tolerance, and a level.
func check(t *testing.T, r Report, name string, value, tolerance float64, level Level) {
	t.Helper()
	p, found := measured(r, name)
	if !found || math.Abs(p.Value-value) > tolerance || p.Level != level {
		t.Errorf("%s is %+v, wanted %.3f ± %.3f and level %d", name, p, value, tolerance, level)
	}
}

// TestCleanPicture grades a symbol without a fault: every value is known.
func TestCleanPicture(t *testing.T) {
	for _, s := range []symbol.Symbol{matrix(t), qr(t)} {
		r := newPhoto(s).measure(t)
		check(t, r, Decode, 1, 0, 4)
		check(t, r, SymbolContrast, paper-ink, 0.01, 4)
		check(t, r, Modulation, 1, 0.01, 4)
		check(t, r, AxialUniformity, 0, 1e-9, 4)
		check(t, r, GridUniformity, 0, 0.03, 4)
		check(t, r, UnusedCorrection, 1, 0, 4)
		check(t, r, QuietZone, 0, 0, 4)
		if r.Overall != 4 || r.Text != "1000042744" || r.Symbology != s.Symbology || len(r.Parameters) != 7 {
			t.Errorf("got %+v", r)
		}
	}
}

// TestContrast prints pale on grey.
func TestContrast(t *testing.T) {
	p := newPhoto(matrix(t))
	p.area(p.Rect, 0.70)
	for row := range 12 {
		for column := range 12 {
			if p.symbol.Dark(column, row) {
				p.paint(column, row, 0.25)
			}
		}
	}
	r := p.measure(t)
	check(t, r, SymbolContrast, 0.45, 0.01, 2)
	if r.Overall != 2 || r.Overall.Letter() != "C" {
		t.Errorf("overall %d", r.Overall)
	}
}

// TestUnusedCorrection spoils one module in each of so many codewords.
func TestUnusedCorrection(t *testing.T) {
	words := codewords(t)
	for wrong, level := range []Level{4, 4, 1, 0} {
		p := newPhoto(matrix(t))
		for _, word := range words[:wrong] {
			p.invert(word[0])
		}
		r := p.measure(t)
		check(t, r, UnusedCorrection, 1-float64(wrong)/3, 1e-9, level)
	}
}

// codewords gives the modules of each codeword of the test's Data Matrix symbol.
func codewords(t *testing.T) [][]modules.Cell {
	t.Helper()
	s := matrix(t)
	m := modules.NewMatrix(s.Columns, s.Rows)
	for row := range s.Rows {
		for column := range s.Columns {
			m.Set(modules.Cell{Column: column, Row: row}, s.Dark(column, row))
		}
	}
	decoded, err := modules.DecodeDataMatrix(m)
	if err != nil {
		t.Fatal(err)
	}
	return decoded.Blocks[0].Words
}

// TestModulation makes a module weak in some codewords. Error correction makes up
// for one of twelve codewords without losing level 4; for two it can't, and the
// level is that of the modulation itself.
func TestModulation(t *testing.T) {
	const weak = 0.35
	words, middle, reach := codewords(t), (paper+ink)/2, (paper-ink)/2
	for wrong, level := range []Level{4, 4, 2} {
		p := newPhoto(matrix(t))
		for _, word := range words[:wrong] {
			c := word[3]
			if p.symbol.Dark(c.Column, c.Row) {
				p.paint(c.Column, c.Row, middle-weak*reach)
			} else {
				p.paint(c.Column, c.Row, middle+weak*reach)
			}
		}
		value := 1.0
		if wrong > 0 {
			value = weak
		}
		check(t, p.measure(t), Modulation, value, 0.01, level)
	}
}

// TestAxial stretches the picture by 7 %: half of it above the mean, half below.
func TestAxial(t *testing.T) {
	p := newPhoto(matrix(t))
	place := p.place()
	stretched := image.NewGray(image.Rect(0, 0, p.Rect.Dx()*107/100, p.Rect.Dy()))
	for y := range stretched.Rect.Dy() {
		for x := range stretched.Rect.Dx() {
			stretched.SetGray(x, y, p.GrayAt(x*100/107, y))
		}
	}
	for i := range place.Outline {
		place.Outline[i].X *= 1.07
	}
	r, err := Measure(stretched, place)
	if err != nil {
		t.Fatal(err)
	}
	check(t, r, AxialUniformity, 0.07/1.035, 1e-6, 3)
	check(t, r, GridUniformity, 0, 0.05, 4)
}

// TestGridShift moves three rows sideways by a known part of a module, as a label
// that slips in the printer does.
func TestGridShift(t *testing.T) {
	for _, c := range []struct {
		shift int // pixels
		level Level
	}{{4, 4}, {6, 4}, {9, 3}} {
		p := newPhoto(matrix(t))
		rows := image.Rect(0, (around+5)*modulePixels, p.Rect.Dx(), (around+8)*modulePixels)
		moved := newPhoto(matrix(t))
		for y := rows.Min.Y; y < rows.Max.Y; y++ {
			for x := c.shift; x < rows.Max.X; x++ {
				moved.SetGray(x, y, p.GrayAt(x-c.shift, y))
			}
		}
		check(t, moved.measure(t), GridUniformity, float64(c.shift)/modulePixels, 0.06, c.level)
	}
}

// TestSpreadInkIsNoShift does not take ink that spreads for an uneven grid.
func TestSpreadInkIsNoShift(t *testing.T) {
	s := matrix(t)
	p := newPhoto(s)
	for row := range s.Rows {
		for column := range s.Columns {
			if s.Dark(column, row) {
				p.area(p.module(column, row).Inset(-4), ink)
			}
		}
	}
	check(t, p.measure(t), GridUniformity, 0, 0.05, 4)
}

// TestQuietZone draws bars into it: one of the four modules around a Data Matrix
// symbol counts, all four around a QR Code symbol.
func TestQuietZone(t *testing.T) {
	near, far := newPhoto(matrix(t)), newPhoto(matrix(t))
	near.area(image.Rect(0, 3*modulePixels, near.Rect.Dx(), 4*modulePixels), ink)
	far.area(image.Rect(0, 0, far.Rect.Dx(), 2*modulePixels), ink)
	check(t, near.measure(t), QuietZone, 14.0/52, 1e-9, 0)
	check(t, far.measure(t), QuietZone, 0, 1e-9, 4)
	code := newPhoto(qr(t))
	code.area(image.Rect(0, 0, code.Rect.Dx(), modulePixels), ink)
	check(t, code.measure(t), QuietZone, 29.0/(29*29-21*21), 1e-9, 3)
}

// TestUnreadable grades 0 what can't be read, and says why.
func TestUnreadable(t *testing.T) {
	p := newPhoto(matrix(t))
	for i := range 40 {
		p.invert(modules.Cell{Column: 1 + i%10, Row: 1 + i/10*2})
	}
	r := p.measure(t)
	check(t, r, Decode, 0, 0, 0)
	if _, found := measured(r, UnusedCorrection); found || r.Overall != 0 || r.Text != "" {
		t.Errorf("got %+v", r)
	}
}

// TestMeasureRefuses says why a place can't be graded.
func TestMeasureRefuses(t *testing.T) {
	p := newPhoto(matrix(t))
	bars, small, outside, flat := p.place(), p.place(), p.place(), p.place()
	bars.Symbology = symbol.Code128
	small.Outline = small.Outline.Times(0.15)
	outside.Outline = outside.Outline.Times(3)
	flat.Outline = picture.Quad{}
	if _, err := Measure(p, bars); !errors.Is(err, ErrKind) {
		t.Errorf("Code 128: %v", err)
	}
	if _, err := Measure(p, small); !errors.Is(err, ErrTooCoarse) {
		t.Errorf("small: %v", err)
	}
	for _, place := range []Place{outside, flat} {
		if _, err := Measure(p, place); !errors.Is(err, ErrPlace) {
			t.Errorf("%v: %v", place.Outline, err)
		}
	}
}
