package standing

import (
	"time"

	"steeltally/inventory"
)

// Telling is the reference of which more is known: passes all counted since the
// last height, then more heights, then heights over more passes.
func Telling(r *inventory.Runner, at time.Time) inventory.Series {
	loose, fitted := r.Series(inventory.Loose, at), r.Series(inventory.Fitted, at)
	if fitted.Readings() == 0 {
		return loose
	}
	if loose.SinceUnknown != fitted.SinceUnknown {
		if loose.SinceUnknown {
			return fitted
		}
		return loose
	}
	if a, b := loose.Readings(), fitted.Readings(); a != b {
		if a > b {
			return loose
		}
		return fitted
	}
	if spanOf(loose) > spanOf(fitted) {
		return loose
	}
	return fitted
}

// spanOf is how many counted passes lie behind the readings of a series.
func spanOf(s inventory.Series) int {
	span := 0
	for _, stretch := range s.Stretches {
		if n := len(stretch.Readings); n > 0 {
			span += stretch.Readings[n-1].Passes
			if !stretch.New {
				span -= stretch.Readings[0].Passes
			}
		}
	}
	return span
}
