package grade

import (
	"image"
	"math"

	"steeltally/labels/reader/picture"
)

// surface is the reflectance of the paper around a symbol: 0 reflects nothing, 1 as
// much as the picture's white.
type surface struct{ linear *picture.Grey }

// marginModules is how much of the picture around a symbol is needed: the widest
// quiet zone, and some for perspective.
const marginModules = 6

// newSurface cuts a symbol out of a picture and takes the cut out of its transfer
// curve, which holds brightness as the eye sees it, not as light. The place it gives
// is that in the cut.
func newSurface(img image.Image, p Place) (surface, Place) {
	img, p = cut(img, p)
	grey := picture.FromImage(img, 1)
	var curve [256]uint8
	for v := range curve {
		curve[v] = uint8(math.Round(255 * toLight(float64(v)/255)))
	}
	for i, v := range grey.Pix {
		grey.Pix[i] = curve[v]
	}
	return surface{grey}, p
}

// cut is the part of a picture around a symbol, where its kind of picture can be cut.
func cut(img image.Image, p Place) (image.Image, Place) {
	whole, ok := img.(interface {
		SubImage(r image.Rectangle) image.Image
	})
	if !ok {
		return img, p
	}
	bounds, q := img.Bounds(), p.Outline
	margin := marginModules * max(p.sides())
	left, right := min(q[0].X, q[1].X, q[2].X, q[3].X)-margin, max(q[0].X, q[1].X, q[2].X, q[3].X)+margin
	top, bottom := min(q[0].Y, q[1].Y, q[2].Y, q[3].Y)-margin, max(q[0].Y, q[1].Y, q[2].Y, q[3].Y)+margin
	area := image.Rect(int(left), int(top), int(right)+1, int(bottom)+1).Intersect(image.Rectangle{Max: bounds.Size()})
	for i := range p.Outline {
		p.Outline[i] = q[i].Minus(picture.Point{X: float64(area.Min.X), Y: float64(area.Min.Y)})
	}
	return whole.SubImage(area.Add(bounds.Min)), p
}

// toLight turns a picture's value into light, both 0 to 1, and toValue turns it
// back (IEC 61966-2-1, sRGB).
func toLight(value float64) float64 {
	if value <= 0.04045 {
		return value / 12.92
	}
	return math.Pow((value+0.055)/1.055, 2.4)
}

func toValue(light float64) float64 {
	if light <= 0.0031308 {
		return light * 12.92
	}
	return 1.055*math.Pow(light, 1/2.4) - 0.055
}

// at is the reflectance at a point.
func (s surface) at(p picture.Point) float64 { return s.linear.At(p.X, p.Y) / 255 }

// holds tells whether a point is in the picture.
func (s surface) holds(p picture.Point) bool {
	return p.X >= 0 && p.Y >= 0 && p.X < float64(s.linear.Width) && p.Y < float64(s.linear.Height)
}
