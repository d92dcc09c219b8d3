// Package picture holds a photograph or a scan as a reader of symbols needs it:
// one plane of grey, its dark parts, and the geometry of a flat thing seen at an
// angle. Coordinates are continuous: pixel (0, 0) covers 0 to 1 both ways.
package picture

import (
	"image"
	"image/color"
	"image/draw"
)

// Grey is one plane of brightness, 0 black to 255 white, row by row.
type Grey struct {
	Width, Height int
	Pix           []uint8
}

// NewGrey makes a black plane of the given size in pixels.
func NewGrey(width, height int) *Grey {
	return &Grey{Width: width, Height: height, Pix: make([]uint8, width*height)}
}

// Row is the pixels of row y.
func (g *Grey) Row(y int) []uint8 { return g.Pix[y*g.Width : (y+1)*g.Width] }

// FromImage takes the brightness of a picture; what is transparent counts as
// white paper. Work is shared among that many workers.
func FromImage(img image.Image, workers int) *Grey {
	bounds := img.Bounds()
	grey := NewGrey(bounds.Dx(), bounds.Dy())
	Strips(grey.Height, workers, func(from, to int) {
		strip := image.Rect(bounds.Min.X, bounds.Min.Y+from, bounds.Max.X, bounds.Min.Y+to)
		grey.copyStrip(img, strip, from)
	})
	return grey
}

// copyStrip fills the rows from row on with a strip of the picture.
func (g *Grey) copyStrip(img image.Image, strip image.Rectangle, row int) {
	switch src := img.(type) {
	case *image.YCbCr:
		for y := strip.Min.Y; y < strip.Max.Y; y++ {
			start := src.YOffset(strip.Min.X, y)
			copy(g.Row(row+y-strip.Min.Y), src.Y[start:start+g.Width])
		}
	case *image.Gray:
		for y := strip.Min.Y; y < strip.Max.Y; y++ {
			start := src.PixOffset(strip.Min.X, y)
			copy(g.Row(row+y-strip.Min.Y), src.Pix[start:start+g.Width])
		}
	default:
		g.copyOnWhite(img, strip, row)
	}
}

// copyOnWhite lays a strip of any kind of picture on white, then takes its brightness.
func (g *Grey) copyOnWhite(img image.Image, strip image.Rectangle, row int) {
	line := image.NewRGBA(image.Rect(0, 0, strip.Dx(), 1))
	white := image.NewUniform(color.White)
	for y := strip.Min.Y; y < strip.Max.Y; y++ {
		draw.Draw(line, line.Rect, white, image.Point{}, draw.Src)
		draw.Draw(line, line.Rect, img, image.Pt(strip.Min.X, y), draw.Over)
		out := g.Row(row + y - strip.Min.Y)
		for x := range out {
			p := line.Pix[4*x : 4*x+3 : 4*x+3]
			out[x] = luma(p[0], p[1], p[2])
		}
	}
}

// luma is the brightness of a colour by the weights of ITU-R BT.601, as JPEG uses them.
func luma(r, g, b uint8) uint8 {
	return uint8((19595*uint32(r) + 38470*uint32(g) + 7471*uint32(b) + 1<<15) >> 16)
}

// At is the brightness at a point, interpolated between the four nearest pixels;
// outside the picture the nearest edge counts.
func (g *Grey) At(x, y float64) float64 {
	x, y = clamp(x-0.5, g.Width-1), clamp(y-0.5, g.Height-1)
	column, row := int(x), int(y)
	fx, fy := x-float64(column), y-float64(row)
	right, below := 1, g.Width
	if column == g.Width-1 {
		right = 0
	}
	if row == g.Height-1 {
		below = 0
	}
	i := row*g.Width + column
	top := float64(g.Pix[i])*(1-fx) + float64(g.Pix[i+right])*fx
	bottom := float64(g.Pix[i+below])*(1-fx) + float64(g.Pix[i+below+right])*fx
	return top*(1-fy) + bottom*fy
}

// clamp keeps a coordinate between 0 and the last pixel; a NaN becomes 0.
func clamp(x float64, last int) float64 {
	if x > float64(last) {
		return float64(last)
	}
	if x > 0 {
		return x
	}
	return 0
}

// Halved is the plane at half the size, each pixel the mean of four.
func (g *Grey) Halved(workers int) *Grey {
	half := NewGrey(g.Width/2, g.Height/2)
	Strips(half.Height, workers, func(from, to int) {
		for y := from; y < to; y++ {
			upper, lower, out := g.Row(2*y), g.Row(2*y+1), half.Row(y)
			for x := range out {
				sum := uint(upper[2*x]) + uint(upper[2*x+1]) + uint(lower[2*x]) + uint(lower[2*x+1])
				out[x] = uint8((sum + 2) / 4)
			}
		}
	})
	return half
}

// Doubled is the plane at twice the size, interpolated.
func (g *Grey) Doubled(workers int) *Grey {
	double := NewGrey(2*g.Width, 2*g.Height)
	Strips(double.Height, workers, func(from, to int) {
		for y := from; y < to; y++ {
			out := double.Row(y)
			for x := range out {
				out[x] = uint8(g.At((float64(x)+0.5)/2, (float64(y)+0.5)/2) + 0.5)
			}
		}
	})
	return double
}
