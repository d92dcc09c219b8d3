package stats

import (
	"fmt"
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

// Interval is a span that holds the true value with the confidence asked for.
type Interval struct{ Low, High float64 }

// Contains tells whether x lies in the interval, its ends included.
func (i Interval) Contains(x float64) bool { return x >= i.Low && x <= i.High }

// checkLevel refuses a confidence outside (0, 1): .95, not 95.
func checkLevel(level float64) error {
	if level > 0 && level < 1 {
		return nil
	}
	return fmt.Errorf("confidence %v is not between 0 and 1: write .95 for 95 %%", level)
}

// checkFinite refuses values that no measurement gives.
func checkFinite(what string, values ...float64) error {
	for i, v := range values {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("%s %d is %v: leave out what was not measured", what, i+1, v)
		}
	}
	return nil
}

// checkPositive refuses values that are not finite and above 0.
func checkPositive(what string, values ...float64) error {
	if err := checkFinite(what, values...); err != nil {
		return err
	}
	for i, v := range values {
		if v <= 0 {
			return fmt.Errorf("%s %d is %v: it must be above 0", what, i+1, v)
		}
	}
	return nil
}

// checkCounts refuses negative counts.
func checkCounts(what string, counts ...int) error {
	for i, n := range counts {
		if n < 0 {
			return fmt.Errorf("%s %d is %d: a count cannot be negative", what, i+1, n)
		}
	}
	return nil
}

// checkPaired refuses lists that do not belong together.
func checkPaired(what string, a, b int) error {
	if a != b {
		return fmt.Errorf("%s: %d against %d values: give one for each", what, a, b)
	}
	return nil
}
