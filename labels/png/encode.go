// Package png draws a page as a picture whose pixels are the printer's dots: the same
// dots that a renderer makes of the page's PDF at that resolution.
package png

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"image"
	"image/color"
	"image/png"
	"io"
	"math"

	"steeltally/geometry"
	"steeltally/labels"
	"steeltally/labels/lettering"
)

// Write writes the page as a PNG of one bit a dot that says its resolution.
func Write(w io.Writer, p labels.Page) error {
	picture, err := Draw(p)
	if err != nil {
		return err
	}
	var file bytes.Buffer
	if err := png.Encode(&file, picture); err != nil {
		return err
	}
	_, err = w.Write(withResolution(file.Bytes(), int(p.DPI)))
	return err
}

// A PNG starts with its signature and the header chunk; further chunks follow.
const afterHeader = 8 + 4 + 4 + 13 + 4

const inchesPerMetre = 1 / 0.0254

// withResolution puts a pHYs chunk behind the header (PNG, third edition, 11.3.4.3).
func withResolution(file []byte, dpi int) []byte {
	if len(file) < afterHeader {
		return file
	}
	body := []byte("pHYs")
	perMetre := uint32(math.Round(float64(dpi) * inchesPerMetre))
	body = binary.BigEndian.AppendUint32(body, perMetre)
	body = binary.BigEndian.AppendUint32(body, perMetre)
	body = append(body, 1) // the unit is the metre
	chunk := binary.BigEndian.AppendUint32(nil, uint32(len(body)-4))
	chunk = append(chunk, body...)
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(body))
	return append(append(append([]byte(nil), file[:afterHeader]...), chunk...), file[afterHeader:]...)
}

// Paper and ink are the two colours of a picture, by their place in its palette.
const (
	paper uint8 = 0
	ink   uint8 = 1
)

// mostDots bounds a picture: an A3 sheet at 600 dpi has 70 million dots.
const mostDots = 100_000_000

// Draw is the page's picture, one pixel a dot.
func Draw(p labels.Page) (*image.Paletted, error) {
	if p.Width <= 0 || p.Height <= 0 || int64(p.Width)*int64(p.Height) > mostDots {
		return nil, fmt.Errorf("a page of %d x %d dots is not drawn as a picture", p.Width, p.Height)
	}
	picture := image.NewPaletted(image.Rect(0, 0, int(p.Width), int(p.Height)), color.Palette{color.White, color.Black})
	for _, list := range [][]geometry.Rect{p.Ink, p.Marks} {
		for _, r := range list {
			fill(picture, r)
		}
	}
	for _, s := range p.Symbols {
		for _, r := range s.Rects() {
			fill(picture, r)
		}
	}
	w := writer{picture: picture, dpi: p.DPI, outliners: map[lettering.Style]*lettering.Outliner{}, cache: map[glyphKey]*glyph{}}
	for _, run := range p.Texts {
		if err := w.text(run); err != nil {
			return nil, err
		}
	}
	return picture, nil
}

// fill blackens a rectangle.
func fill(picture *image.Paletted, r geometry.Rect) {
	area := image.Rect(int(r.X), int(r.Y), int(r.Right()), int(r.Bottom())).Intersect(picture.Bounds())
	for y := area.Min.Y; y < area.Max.Y; y++ {
		row := picture.Pix[y*picture.Stride:]
		for x := area.Min.X; x < area.Max.X; x++ {
			row[x] = ink
		}
	}
}
