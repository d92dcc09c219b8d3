package drawing

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"strings"
	"testing"

	"steeltally/geometry"
	"steeltally/labels/lettering"
)

func point(x, y geometry.Millimetre) geometry.Point { return geometry.Point{X: x, Y: y} }

// sample has one shape of each sort.
func sample() Drawing {
	d := Drawing{Width: 60, Height: 40}
	d.Add(
		Rectangle(1, 2, 10, 5, Pale), Segment(0, 0, 60, 40, 0.3, Black),
		Line{Points: []geometry.Point{point(0, 0), point(10, 0), point(10, 10)}, Width: 0.5, Dashes: []geometry.Millimetre{2, 1}},
		Dot{At: point(5, 5), Radius: 1, Hollow: true},
		Text{At: point(30, 20), Text: "Zoltán <& \"Kővágó\"", Capital: 2.1, Style: lettering.Bold, Anchor: Middle},
		Text{At: point(3, 30), Text: "upright", Capital: 2.1, Upright: true})
	return d
}

// TestSVGIsWellFormed reads the drawing back with a parser that we did not write.
func TestSVGIsWellFormed(t *testing.T) {
	var out bytes.Buffer
	if err := sample().WriteSVG(&out, "a <title>"); err != nil {
		t.Fatal(err)
	}
	counts, texts := map[string]int{}, ""
	for decoder := xml.NewDecoder(&out); ; {
		token, err := decoder.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		switch v := token.(type) {
		case xml.StartElement:
			counts[v.Name.Local]++
			for _, a := range v.Attr {
				if strings.Contains(a.Value, "NaN") || strings.Contains(a.Value, "Inf") {
					t.Errorf("%s has %s=%q", v.Name.Local, a.Name.Local, a.Value)
				}
			}
		case xml.CharData:
			texts += string(v)
		}
	}
	want := map[string]int{"svg": 1, "title": 1, "polygon": 1, "polyline": 2, "circle": 1, "text": 2}
	for name, n := range want {
		if counts[name] != n {
			t.Errorf("%d %s, want %d", counts[name], name, n)
		}
	}
	if !strings.Contains(texts, `Zoltán <& "Kővágó"`) || !strings.Contains(texts, "a <title>") {
		t.Errorf("texts read back: %q", texts)
	}
}

// TestDashes cuts a line of 20 mm with a corner into dashes of 2 and gaps of 1: seven
// dashes, the last whole, 14 mm of ink.
func TestDashes(t *testing.T) {
	line := Line{Points: []geometry.Point{point(0, 0), point(10, 0), point(10, 10)}, Dashes: []geometry.Millimetre{2, 1}}
	strokes, ink := line.Strokes(), 0.0
	for _, s := range strokes {
		for i := 1; i < len(s); i++ {
			ink += math.Hypot(float64(s[i].X-s[i-1].X), float64(s[i].Y-s[i-1].Y))
		}
	}
	if len(strokes) != 7 || math.Abs(ink-14) > 1e-9 {
		t.Errorf("%d dashes, %v mm of ink", len(strokes), ink)
	}
	line.Dashes = nil
	if got := line.Strokes(); len(got) != 1 || len(got[0]) != 3 {
		t.Errorf("a solid line has %d strokes", len(got))
	}
	line.Dashes = []geometry.Millimetre{0, 0}
	if got := line.Strokes(); len(got) != 1 {
		t.Error("dashes of no length never end")
	}
}

// TestAnchors puts the pen where the text starts.
func TestAnchors(t *testing.T) {
	width := WidthOf(lettering.Regular, 2, "change")
	for anchor, want := range map[Anchor]geometry.Millimetre{Start: 50, Middle: 50 - width/2, End: 50 - width} {
		text := Text{At: point(50, 9), Text: "change", Capital: 2, Anchor: anchor}
		if got := text.Start(); math.Abs(float64(got.X-want)) > 1e-9 || got.Y != 9 {
			t.Errorf("anchor %d starts at %v, want %v", anchor, got, want)
		}
	}
	if width < 5 || width > 12 {
		t.Errorf("six letters of 2 mm capitals are %v wide", width)
	}
}

// TestPlacedDrawingsMove keeps the original as it is.
func TestPlacedDrawingsMove(t *testing.T) {
	inner := sample()
	var outer Drawing
	outer.Place(inner, point(100, 200))
	if got := outer.Shapes[0].(Area).Points[0]; got != point(101, 202) {
		t.Errorf("moved to %v", got)
	}
	if got := inner.Shapes[0].(Area).Points[0]; got != point(1, 2) {
		t.Errorf("the original moved to %v", got)
	}
}
