package grade

import (
	"context"
	"errors"
	"image"
	"image/color"
	"strings"
	"testing"

	"steeltally/labels/reader"
	"steeltally/labels/symbol"
)

// drawing is a symbol in whole printer dots with four modules around.
func drawing(s symbol.Symbol, dots int) (*image.Gray, Drawn) {
	corner := around * dots
	img := image.NewGray(image.Rect(0, 0, s.Columns*dots+2*corner, s.Rows*dots+2*corner))
	for y := range img.Rect.Dy() {
		for x := range img.Rect.Dx() {
			if x < corner || y < corner || !s.Dark((x-corner)/dots, (y-corner)/dots) {
				img.SetGray(x, y, color.Gray{Y: 255})
			}
		}
	}
	area := image.Rect(corner, corner, corner+s.Columns*dots, corner+s.Rows*dots)
	return img, Drawn{s.Symbology, area, s.Columns, s.Rows}
}

func simulated(t *testing.T, s symbol.Symbol, dots int, p Print) Report {
	t.Helper()
	img, drawn := drawing(s, dots)
	r, err := Simulated(img, drawn, p)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// TestPerfectPrint has the contrast of paper and ink, and nothing wrong.
func TestPerfectPrint(t *testing.T) {
	r := simulated(t, matrix(t), 3, Print{Paper: 0.9, Ink: 0.1})
	check(t, r, SymbolContrast, 0.8, 0.01, 4)
	check(t, r, Modulation, 1, 0.02, 4)
	check(t, r, GridUniformity, 0, 0.03, 4)
	if r.Overall != 4 || r.Text != "1000042744" {
		t.Errorf("got %+v", r)
	}
}

// TestUsualPrint grades what tags are designed for well, and never better with
// fewer dots a module.
func TestUsualPrint(t *testing.T) {
	for _, s := range []symbol.Symbol{matrix(t), qr(t)} {
		previous := -1.0
		for dots := 2; dots <= 6; dots++ {
			r := simulated(t, s, dots, UsualPrint())
			m, _ := measured(r, Modulation)
			t.Logf("%s, %d dots a module: %s, modulation %.2f", s.Symbology.Title(), dots, r.Overall.Letter(), m.Value)
			if m.Value < previous {
				t.Errorf("%d dots a module: modulation %.2f, with fewer dots %.2f", dots, m.Value, previous)
			}
			if previous = m.Value; dots >= 3 && r.Overall < 3 {
				t.Errorf("%d dots a module: %+v", dots, r)
			}
		}
	}
}

// TestWorsePrint loses modulation to blur, and all of it to ink that runs together.
func TestWorsePrint(t *testing.T) {
	usual, blurred, drowned := UsualPrint(), UsualPrint(), UsualPrint()
	blurred.Blur, drowned.Gain = 1.2, 1.5
	value := func(p Print) float64 {
		m, _ := measured(simulated(t, qr(t), 3, p), Modulation)
		return m.Value
	}
	if value(blurred) >= value(usual)-0.1 {
		t.Errorf("blurred %.2f, usual %.2f", value(blurred), value(usual))
	}
	if r := simulated(t, qr(t), 3, drowned); r.Overall != 0 {
		t.Errorf("drowned in ink: %+v", r)
	}
}

// TestSimulatedRefuses says what is wrong with a print or a place.
func TestSimulatedRefuses(t *testing.T) {
	img, drawn := drawing(matrix(t), 3)
	for _, p := range []Print{{Gain: -1, Paper: 1}, {Blur: -1, Paper: 1}, {Paper: 0.2, Ink: 0.3}, {Paper: 1.1}, {Paper: 0.5, Ink: -0.1}} {
		if _, err := Simulated(img, drawn, p); !errors.Is(err, ErrPrint) {
			t.Errorf("%+v: %v", p, err)
		}
	}
	drawn.Area = drawn.Area.Add(image.Pt(40, 0))
	if _, err := Simulated(img, drawn, UsualPrint()); !errors.Is(err, ErrPlace) {
		t.Errorf("beyond the drawing: %v", err)
	}
}

// TestPrintIsStated wants every assumption in words.
func TestPrintIsStated(t *testing.T) {
	said := Print{Gain: 0.25, Blur: 0.4, Paper: 0.85, Ink: 0.08}.String()
	for _, part := range []string{"0.25 dots", "0.40 dots", "85 %", "8 %"} {
		if !strings.Contains(said, part) {
			t.Errorf("%q lacks %q", said, part)
		}
	}
}

// TestGradeWhatWasRead takes the place from the reader: what it finds in a picture
// of a usual print gets the grade that the drawing's own place gets.
func TestGradeWhatWasRead(t *testing.T) {
	for _, s := range []symbol.Symbol{matrix(t), qr(t)} {
		img, drawn := drawing(s, 3)
		printed := UsualPrint().expose(img, img.Rect)
		found, err := reader.Read(context.Background(), printed, reader.Options{})
		if err != nil || len(found) != 1 {
			t.Fatalf("found %+v: %v", found, err)
		}
		got, err := Measure(printed, Of(found[0]))
		if err != nil {
			t.Fatal(err)
		}
		want, err := Simulated(img, drawn, UsualPrint())
		if err != nil {
			t.Fatal(err)
		}
		if got.Overall != want.Overall || got.Text != want.Text {
			t.Errorf("read: %+v\ndrawn: %+v", got, want)
		}
	}
}
