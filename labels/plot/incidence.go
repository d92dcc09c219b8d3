package plot

import (
	"steeltally/labels/drawing"
)

// Leaving is which share of runners had left use by each time, by reason; the shares
// stand on each other.
type Leaving struct {
	Unit                string // sessions or days
	Times               []float64
	Low, Breakage, Rest []float64 // shares of 1
}

// Chart draws the shares as steps.
func (l Leaving) Chart(title string) Chart {
	c := Chart{Title: title, Empty: "no runner with known days", Right: 16}
	if len(l.Times) == 0 {
		return c
	}
	c.X = Numbers(l.Unit+" in use", append([]float64{0}, l.Times...)...)
	c.Y = Numbers("of 100 runners", 0, 100)
	xs := append([]float64{0}, l.Times...)
	broken, low, all := []float64{0}, []float64{0}, []float64{0}
	for i := range l.Times {
		broken = append(broken, 100*l.Breakage[i])
		low = append(low, 100*(l.Breakage[i]+l.Low[i]))
		all = append(all, 100*(l.Breakage[i]+l.Low[i]+l.Rest[i]))
	}
	c.Layer = []Layer{
		Steps{X: xs, Y: broken, Grey: drawing.Black, Bold: true, Name: "broken"},
		Steps{X: xs, Y: low, Grey: drawing.Black, Name: "+ low"},
	}
	if n := len(all); all[n-1] > low[n-1]+1 {
		c.Layer = append(c.Layer, Steps{X: xs, Y: all, Grey: drawing.Dark, Dashed: true, Name: "+ other"})
	}
	return c
}
