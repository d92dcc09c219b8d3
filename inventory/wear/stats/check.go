package stats

import (
	"fmt"
	"math"
)

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
