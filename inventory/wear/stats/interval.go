package stats

import "fmt"

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
