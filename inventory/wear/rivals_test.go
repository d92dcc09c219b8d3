package wear_test

import (
	"math"

	"steeltally/inventory/wear"
	"steeltally/inventory/wear/stats"
)

const standstill = 1e-9 // mm a pass: a rival that sees no loss says "for ever"

// naive is what a person works out on paper: lost since new, over the passes.
func naive(readings []wear.Reading, change float64) float64 {
	last := readings[len(readings)-1]
	rate := (nominalNew - float64(last.Height)) / last.Passes
	return passesAt(rate, float64(last.Height)-change)
}

// leastSquares draws a line through the runner's own heights; through the
// nominal new height as well where there is only one.
func leastSquares(readings []wear.Reading, change float64) float64 {
	var passes, heights []float64
	if len(readings) == 1 {
		passes, heights = []float64{0}, []float64{nominalNew}
	}
	for _, r := range readings {
		passes, heights = append(passes, r.Passes), append(heights, float64(r.Height))
	}
	line, err := stats.FitLine(passes, heights)
	if err != nil {
		return passesAt(0, 1)
	}
	return passesAt(-line.Slope, line.Intercept+line.Slope*passes[len(passes)-1]-change)
}

func passesAt(rate, height float64) float64 {
	return math.Max(0, height/math.Max(rate, standstill))
}
