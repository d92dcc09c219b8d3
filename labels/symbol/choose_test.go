package symbol

import (
	"errors"
	"strings"
	"testing"

	"steeltally/geometry"
)

const (
	number = "1000042744"
	tally  = "T1.1000042744.2.117.17L.260112.260128.1190.940.41.205.32.LOW.37"
)

func TestChooseLargestModulesThenLevel(t *testing.T) {
	cases := []struct {
		name          string
		request       Request
		kind          Symbology
		rows, columns int
		level         Level
		dots          geometry.Dot
	}{
		{"a strip of 6 mm takes the rectangle", Request{Text: number, Width: 84, Height: 42, Prefer: []Symbology{DataMatrix}}, DataMatrix, 8, 18, "", 4},
		{"a spot takes the square", Request{Text: number, Width: 58, Height: 58, Prefer: []Symbology{DataMatrix}}, DataMatrix, 12, 12, "", 4},
		{"a number's QR has room for level H", Request{Text: number, Width: 116, Height: 116, Prefer: []Symbology{QR}}, QR, 21, 21, "H", 4},
		{"a tally takes level Q, which keeps version 4", Request{Text: tally, Width: 167, Height: 167, Prefer: []Symbology{QR}}, QR, 33, 33, "Q", 4},
		{"a little more room raises the level, not the modules", Request{Text: tally, Width: 180, Height: 180, Prefer: []Symbology{QR}}, QR, 37, 37, "H", 4},
		{"the second choice at three dots beats the first at two", Request{Text: number, Width: 60, Height: 60, Prefer: []Symbology{QR, DataMatrix}}, DataMatrix, 12, 12, "", 4},
		{"the first choice at two dots when none has three", Request{Text: number, Width: 58, Height: 58, Prefer: []Symbology{QR}}, QR, 21, 21, "H", 2},
		{"Code 128", Request{Text: number, Width: 330, Height: 60, Prefer: []Symbology{Code128}}, Code128, 1, 90, "", 3},
	}
	for _, c := range cases {
		got, err := Choose(c.request)
		if err != nil {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		s := got.Symbol
		if s.Symbology != c.kind || s.Rows != c.rows || s.Columns != c.columns || s.Level != c.level || got.Dots != c.dots {
			t.Errorf("%s: got %s %d x %d level %q at %d dots", c.name, s.Symbology, s.Rows, s.Columns, s.Level, got.Dots)
		}
		if got.Width > c.request.Width || got.Height > c.request.Height {
			t.Errorf("%s: %d x %d dots in a room of %d x %d", c.name, got.Width, got.Height, c.request.Width, c.request.Height)
		}
		if len(got.Reasons) < 2 || !strings.HasPrefix(got.Reasons[len(got.Reasons)-1], "taken: ") {
			t.Errorf("%s: reasons %q", c.name, got.Reasons)
		}
	}
}

func TestChooseRefusesAndSaysWhatWouldFit(t *testing.T) {
	_, err := Choose(Request{Text: number, Width: 27, Height: 27, Prefer: []Symbology{DataMatrix, QR}})
	if !errors.Is(err, ErrNoRoom) {
		t.Fatalf("27 dots: %v", err)
	}
	for _, want := range []string{"Data Matrix 12 x 12 needs 28 x 28 dots", "QR 1-M needs 58 x 58 dots"} {
		if !strings.Contains(err.Error(), want) {
			t.Errorf("%q does not say %q", err, want)
		}
	}
	for _, text := range []string{"", "Ängelvik", "tab\there"} {
		if _, err := Choose(Request{Text: text, Width: 500, Height: 500, Prefer: []Symbology{QR}}); err == nil {
			t.Errorf("%q was taken", text)
		}
	}
	if _, err := Choose(Request{Text: "AB", Width: 500, Height: 500, Prefer: []Symbology{Code128}}); err == nil {
		t.Error("letters were taken for a Code 128")
	}
	if _, err := Choose(Request{Text: "AB", Width: 500, Height: 500, Prefer: []Symbology{"other"}}); err == nil {
		t.Error("an unknown symbology was taken")
	}
}

// The rectangles of a symbol cover its dark modules exactly, and each only once.
func TestRectsCoverTheModules(t *testing.T) {
	qr, err := EncodeQR(tally, "Q", 0)
	if err != nil {
		t.Fatal(err)
	}
	square, err := EncodeDataMatrix(number, Square)
	if err != nil {
		t.Fatal(err)
	}
	rectangle, err := EncodeDataMatrix(number, Rectangle)
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range []Symbol{qr, square, rectangle} {
		covered := make([]int, s.Columns*s.Rows)
		for _, r := range s.Rects() {
			for y := r.Y; y < r.Bottom(); y++ {
				for x := r.X; x < r.Right(); x++ {
					covered[int(y)*s.Columns+int(x)]++
				}
			}
		}
		dark := 0
		for i, n := range covered {
			want := 0
			if s.Dark(i%s.Columns, i/s.Columns) {
				want = 1
				dark++
			}
			if n != want {
				t.Fatalf("%s: module %d is covered %d times, want %d", s.Symbology, i, n, want)
			}
		}
		if dark == 0 || len(s.Rects()) >= dark {
			t.Errorf("%s: %d rectangles for %d dark modules", s.Symbology, len(s.Rects()), dark)
		}
	}
}

// The area of a number at three dots a module, quiet zones of 4, 1 and 10 modules added.
func TestAreaHoldsTheQuietZone(t *testing.T) {
	for kind, want := range map[Symbology][2]geometry.Dot{QR: {29 * 3, 29 * 3}, DataMatrix: {14 * 3, 14 * 3}, Code128: {110 * 3, 3}} {
		var s Symbol
		var err error
		switch kind {
		case QR:
			s, err = EncodeQR(number, "H", 0)
		case DataMatrix:
			s, err = EncodeDataMatrix(number, Square)
		case Code128:
			s, err = EncodeCode128(number)
		}
		if err != nil {
			t.Fatal(err)
		}
		if width, height := s.Area(3); width != want[0] || height != want[1] {
			t.Errorf("%s: area %d x %d, want %v", kind, width, height, want)
		}
	}
}
