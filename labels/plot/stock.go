package plot

import (
	"time"

	"steeltally/labels/drawing"
)

// StockLeft is how many sets are left by the end of each day: a middle guess and the
// span of four cases in five.
type StockLeft struct {
	Days              []time.Time
	Low, Middle, High []float64
}

// Chart draws the sets that are left; below the line they are missing.
func (s StockLeft) Chart(title string) Chart {
	c := Chart{Title: title, Right: changeRoom, Empty: "no schedule, no forecast"}
	if len(s.Days) < 2 {
		return c
	}
	xs := make([]float64, len(s.Days))
	for i, day := range s.Days {
		xs[i] = DayValue(day)
	}
	c.X = Dates("", s.Days[0], s.Days[len(s.Days)-1])
	c.Y = Numbers("sets left", append(append([]float64{0}, s.Low...), s.High...)...)
	c.Layer = []Layer{
		Band{X: xs, Low: s.Low, High: s.High, Grey: drawing.Pale},
		Curve{X: xs, Y: s.Middle, Bold: true},
		Rule{At: 0, Name: "none"},
	}
	return c
}
