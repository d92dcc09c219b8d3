package reader_test

import (
	"image"
	"image/color"
	"testing"

	"steeltally/labels/reader"
	"steeltally/labels/reader/picture"
)

// TestMark draws frames and labels where symbols were found, and leaves the picture
// that it was given, and everything far from a symbol, alone.
func TestMark(t *testing.T) {
	tag := simpleTag(t)
	before := append([]uint8(nil), tag.dots.Pix...)
	found := read(t, tag.dots, reader.Options{})
	marked, err := reader.Mark(tag.dots, found, nil)
	if err != nil {
		t.Fatal(err)
	}
	if string(before) != string(tag.dots.Pix) {
		t.Error("the picture itself was changed")
	}
	changed := func(p image.Point) bool {
		r, g, b, _ := marked.At(p.X, p.Y).RGBA()
		v := uint32(tag.dots.GrayAt(p.X, p.Y).Y) * 0x101
		return r != v || g != v || b != v
	}
	for _, f := range found {
		for i, corner := range f.Corners {
			edge := corner.Add(f.Corners[(i+1)%4]).Div(2)
			if !changed(edge) {
				t.Errorf("no frame at %v", edge)
			}
		}
	}
	if changed(image.Pt(300, 200)) || changed(image.Pt(0, 0)) {
		t.Error("the picture was changed far from any symbol")
	}
}

// TestMarkLabels writes the labels that it is given, each on its symbol.
func TestMarkLabels(t *testing.T) {
	white := image.NewGray(image.Rect(0, 0, 400, 300))
	for i := range white.Pix {
		white.Pix[i] = 255
	}
	found := []reader.Found{{Outline: square(100, 100, 60)}, {Outline: square(300, 200, 60)}}
	var asked []int
	marked, err := reader.Mark(white, found, func(i int) string {
		asked = append(asked, i)
		return []string{"", "R0-427-44"}[i]
	})
	if err != nil {
		t.Fatal(err)
	}
	if len(asked) != 2 || asked[0] != 0 || asked[1] != 1 {
		t.Errorf("asked for the labels %v", asked)
	}
	ink := func(symbol image.Point) (dark int) {
		for y := symbol.Y - 55; y < symbol.Y-35; y++ { // above the frame
			for x := symbol.X - 25; x < symbol.X+25; x++ {
				if marked.RGBAAt(x, y) == (color.RGBA{A: 255}) {
					dark++
				}
			}
		}
		return dark
	}
	if without, with := ink(image.Pt(100, 100)), ink(image.Pt(300, 200)); without != 0 || with < 100 {
		t.Errorf("%d dark pixels for no label, %d for one", without, with)
	}
}

// TestMarkBeyondTheEdge draws what is inside of a symbol that is cut by the picture's edge.
func TestMarkBeyondTheEdge(t *testing.T) {
	white := image.NewGray(image.Rect(50, 50, 250, 250))
	for _, outline := range []picture.Quad{square(0, 0, 80), square(200, 200, 80), square(-500, 900, 80), square(100, 100, 900), {}} {
		marked, err := reader.Mark(white, []reader.Found{{Outline: outline}}, nil)
		if err != nil || marked.Rect != image.Rect(0, 0, 200, 200) {
			t.Errorf("%v: %v, %v", outline, marked.Rect, err)
		}
	}
}

// square is an upright square around a point.
func square(x, y, side float64) picture.Quad {
	h := side / 2
	return picture.Quad{{X: x - h, Y: y - h}, {X: x + h, Y: y - h}, {X: x + h, Y: y + h}, {X: x - h, Y: y + h}}
}
