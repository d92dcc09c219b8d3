package reader_test

import (
	"bytes"
	"context"
	"errors"
	"image"
	"image/color"
	"math/rand/v2"
	"strings"
	"testing"

	"steeltally/labels/reader"
	"steeltally/labels/symbol"
)

// simpleTag is a tag on white paper, seen straight on, its dots whole pixels.
func simpleTag(t testing.TB) mockTag {
	t.Helper()
	return tieOnTag(t, rand.New(rand.NewPCG(1, 1)), 427)
}

func read(t *testing.T, img image.Image, o reader.Options) []reader.Found {
	t.Helper()
	found, err := reader.Read(context.Background(), img, o)
	if err != nil {
		t.Fatal(err)
	}
	return found
}

// TestReadSays wants text, kind, size and corners of both symbols of a tag.
func TestReadSays(t *testing.T) {
	tag := simpleTag(t)
	found := read(t, tag.dots, reader.Options{})
	if len(found) != 2 {
		t.Fatalf("found %d symbols", len(found))
	}
	qr, matrix := found[0], found[1]
	if qr.Text != tag.text || qr.Symbology != symbol.QR || qr.Columns != 33 || qr.Rows != 33 {
		t.Errorf("QR Code: %+v", qr)
	}
	if matrix.Text != tag.number || matrix.Symbology != symbol.DataMatrix || matrix.Columns != 12 {
		t.Errorf("Data Matrix: %+v", matrix)
	}
	side := 33 * qrDots
	corners := [4]image.Point{{X: 24, Y: 24}, {X: 24 + side, Y: 24}, {X: 24 + side, Y: 24 + side}, {X: 24, Y: 24 + side}}
	for i, want := range corners {
		if d := qr.Corners[i].Sub(want); d.X*d.X+d.Y*d.Y > 2 {
			t.Errorf("corner %d is at %v, drawn at %v", i, qr.Corners[i], want)
		}
	}
}

// TestCornersTurn follows the symbol's own top left corner when the tag is turned.
func TestCornersTurn(t *testing.T) {
	tag := simpleTag(t)
	turned := image.NewGray(image.Rect(0, 0, tagHeight, tagWidth))
	for y := range tagWidth {
		for x := range tagHeight {
			turned.SetGray(x, y, tag.dots.GrayAt(y, tagHeight-1-x))
		}
	}
	found := read(t, turned, reader.Options{})
	if len(found) != 2 || found[0].Symbology != symbol.QR {
		t.Fatalf("found %+v", found)
	}
	if first := found[0].Corners[0]; first.X < tagHeight/2 || first.Y > tagWidth/2 {
		t.Errorf("turned clockwise, the first corner is at %v", first)
	}
}

// TestReadFromCrop gives corners in the picture's own coordinates.
func TestReadFromCrop(t *testing.T) {
	tag := simpleTag(t)
	whole, part := read(t, tag.dots, reader.Options{}), tag.dots.SubImage(image.Rect(300, 100, tagWidth, tagHeight))
	cropped := read(t, part, reader.Options{})
	if len(cropped) != 1 || cropped[0].Text != tag.number {
		t.Fatalf("the crop holds %+v", cropped)
	}
	for i, p := range cropped[0].Corners {
		if d := p.Sub(whole[1].Corners[i]); d.X*d.X+d.Y*d.Y > 2 {
			t.Errorf("corner %d at %v, in the whole picture at %v", i, p, whole[1].Corners[i])
		}
	}
}

// TestAccept leaves out what is not wanted.
func TestAccept(t *testing.T) {
	tag := simpleTag(t)
	found := read(t, tag.dots, reader.Options{Accept: func(text string) bool { return strings.HasPrefix(text, "T1.") }})
	if len(found) != 1 || found[0].Text != tag.text {
		t.Errorf("found %+v", found)
	}
}

// TestSameAnswer wants the same from any number of workers.
func TestSameAnswer(t *testing.T) {
	s := cornerScene()
	img, _ := s.render(t, rand.New(rand.NewPCG(9, 9)))
	one, four := read(t, img, reader.Options{Workers: 1}), read(t, img, reader.Options{Workers: 4})
	if len(one) == 0 || len(one) != len(four) {
		t.Fatalf("one worker found %d, four %d", len(one), len(four))
	}
	for i := range one {
		if one[i] != four[i] {
			t.Errorf("one worker: %+v, four: %+v", one[i], four[i])
		}
	}
}

// TestNothingThere finds nothing in pictures without a tag.
func TestNothingThere(t *testing.T) {
	random := rand.New(rand.NewPCG(5, 5))
	white, noise, blocks := image.NewGray(image.Rect(0, 0, 900, 700)), image.NewGray(image.Rect(0, 0, 900, 700)), image.NewGray(image.Rect(0, 0, 900, 700))
	for i := range white.Pix {
		white.Pix[i] = 255
		noise.Pix[i] = uint8(random.IntN(256))
	}
	for y := range 700 / 6 {
		for x := range 900 / 6 {
			value := uint8(255 * random.IntN(2))
			for i := range 36 {
				blocks.SetGray(6*x+i%6, 6*y+i/6, color.Gray{Y: value})
			}
		}
	}
	for name, img := range map[string]image.Image{"white": white, "noise": noise, "blocks": blocks, "small": white.SubImage(image.Rect(0, 0, 3, 2))} {
		if found := read(t, img, reader.Options{}); len(found) != 0 {
			t.Errorf("%s: found %+v", name, found)
		}
	}
}

// TestBenchWithoutTags finds nothing on a bare bench.
func TestBenchWithoutTags(t *testing.T) {
	s := cornerScene()
	s.columns = 0
	img, _ := s.render(t, rand.New(rand.NewPCG(4, 4)))
	if found := read(t, img, reader.Options{}); len(found) != 0 {
		t.Errorf("found %+v", found)
	}
}

// TestNoPixels refuses a picture without any.
func TestNoPixels(t *testing.T) {
	if _, err := reader.Read(context.Background(), image.NewGray(image.Rectangle{}), reader.Options{}); !errors.Is(err, reader.ErrNoPicture) {
		t.Errorf("got %v", err)
	}
	huge := image.NewUniform(color.White) // as large as coordinates go
	if _, err := reader.Read(context.Background(), huge, reader.Options{}); !errors.Is(err, reader.ErrTooLarge) {
		t.Errorf("got %v", err)
	}
}

// TestCancelled ends early, without results, when the context is done.
func TestCancelled(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	found, err := reader.Read(ctx, simpleTag(t).dots, reader.Options{})
	if !errors.Is(err, context.Canceled) || found != nil {
		t.Errorf("found %v, error %v", found, err)
	}
}

// TestTransparentIsPaper reads a tag drawn in black on nothing.
func TestTransparentIsPaper(t *testing.T) {
	tag := simpleTag(t)
	img := image.NewNRGBA(tag.dots.Rect)
	for i, v := range tag.dots.Pix {
		img.Pix[4*i+3] = 255 - v
	}
	if found := read(t, img, reader.Options{}); len(found) != 2 {
		t.Errorf("found %+v", found)
	}
}

// matrixBlocks is a Data Matrix symbol with its quiet zone, a byte of grey a module.
func matrixBlocks(t testing.TB, text string) []byte {
	t.Helper()
	matrix := squareMatrix(t, text)
	blocks := bytes.Repeat([]byte{255}, 14*14)
	for i := range 12 * 12 {
		if matrix.Dark(i%12, i/12) {
			blocks[14*(i/12+1)+i%12+1] = 0
		}
	}
	return blocks
}

// TestSmallPicture reads a symbol that fills a picture of 70 pixels a side.
func TestSmallPicture(t *testing.T) {
	img := blockPicture(14, 5, matrixBlocks(t, "1000042744"))
	if found := read(t, img, reader.Options{}); len(found) != 1 || found[0].Text != "1000042744" {
		t.Errorf("found %+v", found)
	}
}

// FuzzRead wants no panic, and only corners that are near the picture, whatever is
// in a small picture of blocks.
func FuzzRead(f *testing.F) {
	f.Add(uint8(13), uint8(3), matrixBlocks(f, "1000042744"))
	f.Fuzz(func(t *testing.T, columns, size uint8, blocks []byte) {
		img := blockPicture(int(columns%32)+1, int(size%4)+2, blocks)
		found := read(t, img, reader.Options{Workers: 1})
		near := img.Rect.Inset(-img.Rect.Dx() - img.Rect.Dy())
		for _, x := range found {
			if c := x.Outline.Center(); x.Text == "" || !x.Outline.Convex() || !image.Pt(int(c.X), int(c.Y)).In(near) {
				t.Errorf("found %+v", x)
			}
		}
	})
}

// blockPicture paints bytes as square blocks of grey, row by row.
func blockPicture(columns, size int, blocks []byte) *image.Gray {
	rows := min(len(blocks)/columns+1, 32)
	img := image.NewGray(image.Rect(0, 0, columns*size, rows*size))
	for i := range img.Pix {
		img.Pix[i] = 255
	}
	for i, v := range blocks[:min(len(blocks), columns*rows)] {
		for k := range size * size {
			img.SetGray(i%columns*size+k%size, i/columns*size+k/size, color.Gray{Y: v})
		}
	}
	return img
}
