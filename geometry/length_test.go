package geometry

import (
	"errors"
	"testing"
)

// Inch and foot are exact by the international yard and pound agreement of 1959:
// 25.4 mm and 304.8 mm.
func TestParseLength(t *testing.T) {
	for text, want := range map[string]Millimetre{
		"14.2mm": 14.2, " 14.2 MM ": 14.2, "1/2in": 12.7, "0.5 in": 12.7, `5/8"`: 15.875, "1 1/2 in": 38.1,
		"11ft": 3352.8, "10 1/2 ft": 3200.4, "9'": 2743.2, "1.2m": 1200, "-1 1/2 mm": -1.5, "-0.5mm": -0.5, "-1/2in": -12.7,
		"-0 1/2 mm": -0.5,
	} {
		got, err := ParseLength(text)
		sound(t, err)
		near(t, text, got, want, 1e-12)
	}
}

func TestParseLengthRefuses(t *testing.T) {
	for _, text := range []string{
		"", "mm", "half an inch", "1/0in", "1/in", "/2in", "1 2 in", "1 1/2/3 in", "1 -1/2 in", "1-2mm", "1..2mm",
		"nan mm", "inf in", "0x10mm", "1e3mm", "1_000mm", "12 cm", "--1mm",
	} {
		if got, err := ParseLength(text); err == nil {
			t.Errorf("%q became %v", text, got)
		}
	}
	if _, err := ParseLength("12.7"); !errors.Is(err, ErrNoUnit) {
		t.Errorf("a bare number: got %v, want ErrNoUnit", err)
	}
}

// On a caliper a bare number is millimetres.
func TestParseHeight(t *testing.T) {
	for text, want := range map[string]Millimetre{"20.15": 20.15, " 20 ": 20, "20.15mm": 20.15, "3/4in": 19.05} {
		got, err := ParseHeight(text)
		sound(t, err)
		near(t, text, got, want, 1e-12)
	}
	if _, err := ParseHeight("tall"); err == nil {
		t.Error("a word became a height")
	}
}

func TestDots(t *testing.T) {
	for _, row := range []struct {
		length Millimetre
		at     DPI
		want   Dot
	}{
		{25.4, 203, 203}, {10, 203, 80}, {10, 300, 118}, {0, 600, 0}, {-25.4, 300, -300},
	} {
		if got := row.length.Dots(row.at); got != row.want {
			t.Errorf("%v at %d dpi: got %d dots, want %d", row.length, row.at, got, row.want)
		}
	}
	for dots := Dot(-50); dots < 500; dots++ {
		for _, at := range []DPI{203, 300, 600} {
			if back := dots.Millimetres(at).Dots(at); back != dots {
				t.Fatalf("%d dots at %d dpi came back as %d", dots, at, back)
			}
		}
	}
	near(t, "inches", Millimetre(12.7).Inches(), 0.5, 1e-15)
	if got := Millimetre(11.2).String(); got != "11.20 mm" {
		t.Errorf("got %q", got)
	}
}
