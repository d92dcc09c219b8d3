package grade

import (
	"errors"
	"fmt"
	"image"
	"image/color"
	"math"

	"steeltally/labels/reader/picture"
	"steeltally/labels/symbol"
)

// Print is how a printer and its paper treat a perfect drawing.
type Print struct {
	Gain  float64 // dots that each dark edge moves outwards, in eighths
	Blur  float64 // standard deviation of the blur of edges, dots
	Paper float64 // reflectance of the paper, 0 to 1
	Ink   float64 // reflectance of what is printed
}

// UsualPrint is a direct thermal printer on white paper as it is assumed here
// (common practice, no source).
func UsualPrint() Print { return Print{Gain: 0.25, Blur: 0.4, Paper: 0.85, Ink: 0.08} }

// ErrPrint says that nothing prints as a Print would have it.
var ErrPrint = errors.New("gain and blur must not be negative, and paper must reflect more than ink, each from 0 to 1")

// String states what a simulated print assumes.
func (p Print) String() string {
	return fmt.Sprintf("dark edges %.2f dots outwards, blurred by %.2f dots, paper reflects %.0f %%, print %.0f %%",
		p.Gain, p.Blur, 100*p.Paper, 100*p.Ink)
}

// Drawn is a symbol in a drawing of printer dots.
type Drawn struct {
	Symbology     symbol.Symbology
	Area          image.Rectangle // of the symbol without quiet zone, in dots
	Columns, Rows int             // modules
}

// dotPixels is how many pixels a dot is simulated with each way.
const dotPixels = 8

// Simulated grades a symbol as it would come out of a printer: a perfect drawing
// proves nothing. The drawing has one pixel a dot.
func Simulated(drawing image.Image, d Drawn, p Print) (Report, error) {
	if p.Gain < 0 || p.Blur < 0 || p.Ink < 0 || p.Paper > 1 || p.Paper <= p.Ink {
		return Report{}, fmt.Errorf("grading a simulated print: %w (%v)", ErrPrint, p)
	}
	if d.Columns < 1 || d.Rows < 1 || !d.Area.In(drawing.Bounds()) || d.Area.Empty() {
		return Report{}, fmt.Errorf("grading a simulated print: %w", ErrPlace)
	}
	module := max(d.Area.Dx()/d.Columns, d.Area.Dy()/d.Rows, 1)
	around := d.Area.Inset(-module * (d.Symbology.QuietZone() + 2)).Intersect(drawing.Bounds())
	return Measure(p.expose(drawing, around), Place{d.Symbology, outline(d.Area.Sub(around.Min)), d.Columns, d.Rows})
}

// outline is the corners of an area of dots in simulated pixels.
func outline(area image.Rectangle) picture.Quad {
	at := func(x, y int) picture.Point {
		return picture.Point{X: float64(x * dotPixels), Y: float64(y * dotPixels)}
	}
	return picture.Quad{
		at(area.Min.X, area.Min.Y), at(area.Max.X, area.Min.Y),
		at(area.Max.X, area.Max.Y), at(area.Min.X, area.Max.Y),
	}
}

// expose is the picture of an area as printed.
func (p Print) expose(drawing image.Image, area image.Rectangle) *image.Gray {
	ink := p.inked(drawing, area)
	ink.blur(p.Blur * dotPixels)
	const steps = 4096 // finer than a picture's 256 values are anywhere on the curve
	var curve [steps + 1]uint8
	for i := range curve {
		light := p.Paper + (p.Ink-p.Paper)*float64(i)/steps
		curve[i] = uint8(math.Round(255 * toValue(light)))
	}
	photo := image.NewGray(image.Rect(0, 0, ink.width, ink.height))
	for i, covered := range ink.values {
		photo.Pix[i] = curve[min(max(int(covered*steps+0.5), 0), steps)]
	}
	return photo
}

// inked draws every dark dot as a square with rounded corners, as much larger as
// the ink spreads.
func (p Print) inked(drawing image.Image, area image.Rectangle) *plane {
	ink := newPlane(area.Dx()*dotPixels, area.Dy()*dotPixels)
	spread := p.Gain * dotPixels
	for y := range area.Dy() {
		for x := range area.Dx() {
			if isDark(drawing.At(area.Min.X+x, area.Min.Y+y)) {
				ink.dot(x*dotPixels, y*dotPixels, spread)
			}
		}
	}
	return ink
}

// isDark tells whether a dot of a drawing is printed.
func isDark(c color.Color) bool {
	const half = 0x8000
	r, g, b, a := c.RGBA()
	return a >= half && r+g+b < 3*half
}
