package pdf_test

import (
	"bytes"
	"errors"
	"strings"
	"testing"

	"steeltally/geometry"
	"steeltally/labels/drawing"
	"steeltally/labels/pdf"
)

func picture(texts ...string) drawing.Drawing {
	d := drawing.Drawing{Width: 90, Height: 50}
	d.Add(drawing.Rectangle(1, 1, 10, 10, drawing.Pale), drawing.Segment(0, 0, 90, 50, 0.3, drawing.Black),
		drawing.Dot{At: geometry.Point{X: 45, Y: 25}, Radius: 1, Hollow: true})
	for i, text := range texts {
		d.Add(drawing.Text{At: geometry.Point{X: 5, Y: geometry.Millimetre(10 + 5*i)}, Text: text, Capital: 2.1, Upright: i == 1})
	}
	return d
}

// Drawings and tags share a document; the same drawings give the same bytes.
func TestDrawingsAreRepeatable(t *testing.T) {
	write := func() []byte {
		d, err := pdf.New()
		if err != nil {
			t.Fatal(err)
		}
		if err := errors.Join(d.AddDrawing(picture("height, mm", "upright")), d.Add(tag(t, "tie-on", 203)), d.AddDrawing(picture("passes"))); err != nil {
			t.Fatal(err)
		}
		var out bytes.Buffer
		if _, err := d.WriteTo(&out); err != nil {
			t.Fatal(err)
		}
		return out.Bytes()
	}
	first := write()
	if !bytes.Equal(first, write()) {
		t.Error("two documents of the same drawings differ")
	}
	if n := bytes.Count(first, []byte("/Type /Page\n")); n != 3 {
		t.Errorf("%d pages, want 3", n)
	}
}

// What can't be drawn is an error, never an empty place.
func TestDrawingsThatCannotBe(t *testing.T) {
	d, err := pdf.New()
	if err != nil {
		t.Fatal(err)
	}
	if err := d.AddDrawing(drawing.Drawing{Width: 10, Height: 10}); !errors.Is(err, pdf.ErrEmpty) {
		t.Errorf("an empty drawing: %v", err)
	}
	if err := d.AddDrawing(picture("1😀")); err == nil || !strings.Contains(err.Error(), "U+1F600") {
		t.Errorf("an emoji: %v", err)
	}
}
