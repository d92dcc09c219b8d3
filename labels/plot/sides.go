package plot

import (
	"steeltally/labels/drawing"
)

// SetsApart draws by how much more the left side of each set lost than the right, in
// per cent, in the order in which the sets came off.
func SetsApart(title string, percent []float64) Chart {
	c := Chart{Title: title, Empty: "no set with both sides measured"}
	if len(percent) == 0 {
		return c
	}
	xs := make([]float64, len(percent))
	for i := range xs {
		xs[i] = float64(i + 1)
	}
	c.X = Numbers("set", append([]float64{0}, xs...)...)
	c.Y = Numbers("left more, %", append([]float64{-5, 5}, percent...)...)
	for _, tick := range c.X.Ticks {
		if tick.At != float64(int(tick.At)) {
			c.X.Ticks = nil // no halves of sets
			break
		}
	}
	c.Layer = []Layer{Rule{At: 0}, Dots{X: xs, Y: percent, Grey: drawing.Black}}
	return c
}
