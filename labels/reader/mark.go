package reader

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"math"

	"golang.org/x/image/font"
	"golang.org/x/image/font/opentype"
	"golang.org/x/image/math/fixed"
	"golang.org/x/image/vector"

	"steeltally/labels/lettering"
	"steeltally/labels/reader/picture"
)

// The frame around a symbol is a bright line on a dark one, and its label dark on
// bright, so that they show on any picture, and without colour.
const (
	lineShare   = 1.0 / 700 // of the picture's longer side: the width of the bright line
	labelShare  = 1.0 / 90  // of the picture's longer side: the height of a label
	leastLine   = 2.0       // pixels
	leastLabel  = 12.0      // pixels
	darkToLight = 2.0       // width of the dark line for that of the bright one
)

// Mark draws a frame around each symbol and its label above it, into a copy. A nil label numbers them from 1, in the order given; an empty text is no label.
func Mark(img image.Image, found []Found, label func(i int) string) (*image.RGBA, error) {
	bounds := img.Bounds()
	copied := image.NewRGBA(image.Rect(0, 0, bounds.Dx(), bounds.Dy()))
	draw.Draw(copied, copied.Rect, img, bounds.Min, draw.Src)
	longer := float64(max(bounds.Dx(), bounds.Dy()))
	face, err := labelFace(max(leastLabel, longer*labelShare))
	if err != nil {
		return nil, fmt.Errorf("marking a picture: %w", err)
	}
	if label == nil {
		label = func(i int) string { return fmt.Sprint(i + 1) }
	}
	marker := marker{picture: copied, face: face, line: max(leastLine, longer*lineShare)}
	for i, f := range found {
		marker.frame(f.Outline)
		marker.label(f.Outline, label(i))
	}
	return copied, nil
}

func labelFace(height float64) (font.Face, error) {
	parsed, err := opentype.Parse(lettering.TTF(lettering.Bold))
	if err != nil {
		return nil, err
	}
	return opentype.NewFace(parsed, &opentype.FaceOptions{Size: height, DPI: 72})
}

// marker draws into a picture.
type marker struct {
	picture *image.RGBA
	face    font.Face
	line    float64 // pixels
}

func (m marker) frame(outline picture.Quad) {
	m.strokes(outline, m.line*darkToLight, color.Black)
	m.strokes(outline, m.line, color.RGBA{R: 255, G: 210, A: 255})
}

// strokes draws the four sides, each as a rectangle a little longer than the side.
func (m marker) strokes(outline picture.Quad, width float64, c color.Color) {
	for i, from := range outline {
		to := outline[(i+1)%4]
		side := to.Minus(from)
		if side.Length() == 0 {
			continue
		}
		along := side.Times(width / 2 / side.Length())
		across := picture.Point{X: -along.Y, Y: along.X}
		m.fill([]picture.Point{
			from.Minus(along).Minus(across), to.Plus(along).Minus(across),
			to.Plus(along).Plus(across), from.Minus(along).Plus(across),
		}, c)
	}
}

// fill paints a polygon; what lies beyond the picture is cut off.
func (m marker) fill(corners []picture.Point, c color.Color) {
	left, top, right, bottom := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range corners {
		left, right = min(left, p.X), max(right, p.X)
		top, bottom = min(top, p.Y), max(bottom, p.Y)
	}
	box := image.Rect(int(left), int(top), int(right)+1, int(bottom)+1).Intersect(m.picture.Rect)
	if box.Empty() {
		return
	}
	r := vector.NewRasterizer(box.Dx(), box.Dy())
	at := func(p picture.Point) (x, y float32) {
		return float32(p.X - float64(box.Min.X)), float32(p.Y - float64(box.Min.Y))
	}
	r.MoveTo(at(corners[0]))
	for _, p := range corners[1:] {
		r.LineTo(at(p))
	}
	r.ClosePath()
	r.Draw(m.picture, box, image.NewUniform(c), image.Point{})
}

// label writes a text on a bright plate above a symbol, or as near as the picture
// has room for it.
func (m marker) label(outline picture.Quad, text string) {
	if text == "" {
		return
	}
	width, height := font.MeasureString(m.face, text).Ceil(), m.face.Metrics().CapHeight.Ceil()
	pad := height / 2
	top := min(outline[0].Y, outline[1].Y, outline[2].Y, outline[3].Y) - m.line
	x := int(outline.Center().X) - width/2 - pad
	y := int(top) - height - 2*pad
	x = max(0, min(x, m.picture.Rect.Dx()-width-2*pad))
	y = max(0, min(y, m.picture.Rect.Dy()-height-2*pad))
	plate := image.Rect(x, y, x+width+2*pad, y+height+2*pad)
	draw.Draw(m.picture, plate.Inset(-2), image.Black, image.Point{}, draw.Src)
	draw.Draw(m.picture, plate, image.White, image.Point{}, draw.Src)
	d := font.Drawer{Dst: m.picture, Src: image.Black, Face: m.face, Dot: fixed.P(x+pad, y+pad+height)}
	d.DrawString(text)
}
