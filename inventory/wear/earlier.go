package wear

import (
	"fmt"
	"math"

	"steeltally/inventory/wear/stats"
)

const (
	earlierPoints = 81 // grid of an earlier runner's log loss
	earlierReach  = 1  // to either side, in log loss
)

// EarlierRunner is the log loss per pass (mm) that a removed runner's heights
// show by themselves, with its variance: mean and variance of the normalised
// likelihood on a grid of ±1 about where its heights point.
func (c Constants) EarlierRunner(segments []Segment) (stats.Estimate, error) {
	if err := checkSegments(segments); err != nil {
		return stats.Estimate{}, fmt.Errorf("earlier runner: %w", err)
	}
	g := newGrid(c.pointedAt(segments), earlierReach, earlierPoints).filter(c, segments, 0)
	var mean, square float64
	for i, w := range normalised(g.log) {
		d := g.logLoss[i] - g.logLoss[0]
		mean += w * d
		square += w * d * d
	}
	return stats.Estimate{Value: g.logLoss[0] + mean, Variance: square - mean*mean}, nil
}

// pointedAt is the median log loss from each segment's beginning to its
// readings; the usual one where none lies lower.
func (c Constants) pointedAt(segments []Segment) float64 {
	var logs []float64
	for _, s := range segments {
		start, passes, readings := s.begin()
		for _, r := range readings {
			lost, ground := start.mean-float64(r.Height), r.Passes-passes
			if lost > 0 && ground > 0 {
				logs = append(logs, math.Log(lost/ground))
			}
		}
	}
	if len(logs) == 0 {
		return c.logLoss()
	}
	return stats.Median(logs)
}
