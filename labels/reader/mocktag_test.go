package reader_test

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"math/rand/v2"
	"testing"

	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"

	"steeltally/labels/lettering"
	"steeltally/labels/symbol"
)

// A mock tag is 70 × 35 mm at 203 dpi, drawn in whole printer dots.
const (
	tagWidth, tagHeight = 560, 280 // dots
	dotsPerMillimetre   = 8.0
	qrDots              = 4 // a module, 0.5 mm
)

// mockTag is a tag as the printer would make it: it carries its number in one
// symbol, a longer text in another, or only one of the two.
type mockTag struct {
	number, text string
	dots         *image.Gray
}

// drawTag draws the tag of a running number.
type drawTag func(t testing.TB, random *rand.Rand, running int) mockTag

// tieOnTag has a QR Code symbol at one end, a Data Matrix symbol with modules of six
// to eight dots at the other, and much that is neither between them.
func tieOnTag(t testing.TB, random *rand.Rand, running int) mockTag {
	t.Helper()
	tag := blankTag(running)
	tag.text = fmt.Sprintf("T1.%s.2.%d.%dL.260112.260128.1190.940.%d.205.32.LOW.%02d",
		tag.number, 100+random.IntN(900), 1+random.IntN(98), 10+random.IntN(80), random.IntN(97))
	tag.distract(t, random)
	qr, err := symbol.EncodeQR(tag.text, "M", 4)
	if err != nil {
		t.Fatal(err)
	}
	tag.drawSymbol(qr, image.Pt(24, 24), qrDots, qrDots)
	matrix, size := squareMatrix(t, tag.number), 6+random.IntN(3)
	tag.drawSymbol(matrix, image.Pt(tagWidth-24-12*size, tagHeight-24-12*size), size, size)
	return tag
}

// stripTag is a narrow strip with an 8 × 18 Data Matrix symbol of four dots a module.
func stripTag(t testing.TB, _ *rand.Rand, running int) mockTag {
	t.Helper()
	tag := blankTag(running)
	matrix, err := symbol.EncodeDataMatrix(tag.number, symbol.Rectangle)
	if err != nil {
		t.Fatal(err)
	}
	tag.drawSymbol(matrix, image.Pt(60, 120), 4, 4)
	tag.write(t, image.Pt(150, 145), 30, tag.number)
	return tag
}

// barsTag carries its number in a Code 128 symbol of two dots a module.
func barsTag(t testing.TB, _ *rand.Rand, running int) mockTag {
	t.Helper()
	tag := blankTag(running)
	bars, err := symbol.EncodeCode128(tag.number)
	if err != nil {
		t.Fatal(err)
	}
	tag.drawSymbol(bars, image.Pt(100, 60), 2, 80)
	tag.write(t, image.Pt(100, 180), 30, tag.number)
	return tag
}

// blankTag is white paper with a number.
func blankTag(running int) mockTag {
	tag := mockTag{number: withCheckDigits(fmt.Sprintf("10%06d", running))}
	tag.dots = image.NewGray(image.Rect(0, 0, tagWidth, tagHeight))
	draw.Draw(tag.dots, tag.dots.Rect, image.White, image.Point{}, draw.Src)
	return tag
}

// withCheckDigits appends the ISO 7064 MOD 97-10 check digits.
func withCheckDigits(digits string) string {
	sum := 0
	for _, d := range digits + "00" {
		sum = (sum*10 + int(d-'0')) % 97
	}
	return fmt.Sprintf("%s%02d", digits, 98-sum)
}

func squareMatrix(t testing.TB, text string) symbol.Symbol {
	t.Helper()
	matrix, err := symbol.EncodeDataMatrix(text, symbol.Square)
	if err != nil {
		t.Fatal(err)
	}
	return matrix
}

// drawSymbol paints a symbol whose modules are width by height dots.
func (tag mockTag) drawSymbol(s symbol.Symbol, at image.Point, width, height int) {
	for row := range s.Rows {
		for column := range s.Columns {
			if s.Dark(column, row) {
				corner := at.Add(image.Pt(column*width, row*height))
				tag.fill(image.Rectangle{Min: corner, Max: corner.Add(image.Pt(width, height))}, 0)
			}
		}
	}
}

// distract adds the words, bars, bands and hole of a tag.
func (tag mockTag) distract(t testing.TB, random *rand.Rand) {
	t.Helper()
	side := []string{"LEFT", "RIGHT"}[random.IntN(2)]
	tag.write(t, image.Pt(190, 120), 110, fmt.Sprint(1+random.IntN(98)))
	tag.write(t, image.Pt(340, 100), 60, side)
	tag.write(t, image.Pt(30, 215), 28, "28 JAN 2026  set 12")
	tag.write(t, image.Pt(30, 250), 24, "9.40 mm  1/2 in  low steel")
	tag.write(t, image.Pt(360, 130), 20, tag.number)
	tag.fill(image.Rect(0, tagHeight-12, tagWidth, tagHeight), 0)
	if random.IntN(4) == 0 {
		tag.fill(image.Rect(180, 140, 340, 175), 0)
	}
	const hole = 14
	for y := -hole; y <= hole; y++ {
		for x := -hole; x <= hole; x++ {
			if x*x+y*y <= hole*hole {
				tag.dots.SetGray(tagWidth-40+x, 40+y, color.Gray{Y: 70})
			}
		}
	}
}

func (tag mockTag) fill(r image.Rectangle, value uint8) {
	draw.Draw(tag.dots, r, image.NewUniform(color.Gray{Y: value}), image.Point{}, draw.Src)
}

// write sets a line of bold letters of the given height in dots.
func (tag mockTag) write(t testing.TB, at image.Point, height float64, text string) {
	t.Helper()
	parsed, err := opentype.Parse(lettering.TTF(lettering.Bold))
	if err != nil {
		t.Fatal(err)
	}
	face, err := opentype.NewFace(parsed, &opentype.FaceOptions{Size: height, DPI: 72, Hinting: font.HintingFull})
	if err != nil {
		t.Fatal(err)
	}
	d := font.Drawer{Dst: tag.dots, Src: image.Black, Face: face, Dot: fixed.P(at.X, at.Y)}
	d.DrawString(text)
}
