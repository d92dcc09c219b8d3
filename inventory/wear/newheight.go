package wear

import (
	"fmt"
	"math"

	"steeltally/geometry"
	"steeltally/inventory/wear/stats"
)

const (
	interceptReadings = 3 // fewest heights that show where a runner began
	interceptClip     = 3 // spreads from the median at which an intercept is held
)

// NewHeight is the height (mm, with the variance of a single new runner) that
// runners of one model begin with: the model's nominal height at stock-in, and
// where earlier runners' heights point back to. Give the segments that began
// new; those with fewer than three readings are passed over.
func (c Constants) NewHeight(nominal geometry.Millimetre, earlier []Segment) (stats.Estimate, error) {
	if !(nominal > 0) || math.IsInf(float64(nominal), 0) {
		return stats.Estimate{}, fmt.Errorf("nominal height %v: it must be above 0", nominal)
	}
	mean := normal{float64(nominal), c.NominalSD * c.NominalSD}
	spread := c.NewSpread * c.NewSpread
	intercepts := interceptsOf(earlier)
	if n := float64(len(intercepts)); n > 0 {
		pooled, err := stats.DerSimonianLaird(intercepts)
		if err != nil {
			return stats.Estimate{}, fmt.Errorf("new height: %w", err)
		}
		mean = mean.and(normal{pooled.Mean, pooled.SE * pooled.SE})
		spread = (c.NewWeight*spread + n*pooled.Tau2) / (c.NewWeight + n)
	}
	return stats.Estimate{Value: mean.mean, Variance: spread + mean.variance}, nil
}

// interceptsOf extrapolates each segment to 0 passes, and holds those that lie
// far out.
func interceptsOf(segments []Segment) []stats.Estimate {
	var found []stats.Estimate
	var values []float64
	for _, s := range segments {
		if e, ok := interceptOf(s); ok {
			found, values = append(found, e), append(values, e.Value)
		}
	}
	median, spread := medianAndSpread(values)
	for i := range found {
		found[i].Value = clip(found[i].Value, median, interceptClip*spread)
	}
	return found
}

func interceptOf(s Segment) (stats.Estimate, bool) {
	if len(s.Readings) < interceptReadings {
		return stats.Estimate{}, false
	}
	var passes, heights []float64
	for _, r := range s.Readings {
		passes, heights = append(passes, r.Passes), append(heights, float64(r.Height))
	}
	line, err := stats.FitLine(passes, heights)
	if err != nil {
		return stats.Estimate{}, false
	}
	return stats.Estimate{Value: line.Intercept, Variance: s.CaliperVariance * line.Leverage(0)}, true
}
