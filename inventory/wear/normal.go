package wear

import (
	"math"

	"steeltally/inventory/wear/stats"
)

// normal is a normal distribution that stands for what is known of a value.
type normal struct{ mean, variance float64 }

// and is what both sources together know.
func (a normal) and(b normal) normal {
	wa, wb := 1/a.variance, 1/b.variance
	return normal{(wa*a.mean + wb*b.mean) / (wa + wb), 1 / (wa + wb)}
}

// medianAndSpread is the median with 1.4826 times the median distance from it.
func medianAndSpread(values []float64) (median, spread float64) {
	median = stats.Median(values)
	distances := make([]float64, len(values))
	for i, v := range values {
		distances[i] = math.Abs(v - median)
	}
	return median, stats.MADScale * stats.Median(distances)
}

// clip holds a value within reach of the centre.
func clip(value, centre, reach float64) float64 {
	return math.Min(math.Max(value, centre-reach), centre+reach)
}
