package stats

import (
	"math"
	"slices"
)

// MADScale makes the median absolute deviation estimate a normal standard
// deviation: 1/Φ⁻¹(3/4), to the four decimals in common use.
const MADScale = 1.4826

// Median is the middle value, or the mean of the two middle ones; NaN of none.
func Median(values []float64) float64 {
	n := len(values)
	if n == 0 {
		return math.NaN()
	}
	sorted := values
	if !slices.IsSorted(values) {
		sorted = slices.Clone(values)
		slices.Sort(sorted)
	}
	if n%2 == 1 {
		return sorted[n/2]
	}
	return (sorted[n/2-1] + sorted[n/2]) / 2
}

// groupSizes counts how often each value occurs, in the order of the values.
func groupSizes(values []float64) []int {
	sorted := slices.Clone(values)
	slices.Sort(sorted)
	var sizes []int
	for i, v := range sorted {
		if i == 0 || v != sorted[i-1] {
			sizes = append(sizes, 0)
		}
		sizes[len(sizes)-1]++
	}
	return sizes
}
