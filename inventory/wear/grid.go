package wear

import "math"

// grid is a row of log losses with what is known at each. The slices are equally
// long.
type grid struct {
	logLoss []float64
	loss    []float64
	state   []normal    // height now
	log     []float64   // log-likelihood of all segments
	sound   [][]float64 // by reading of the last segment: chance that it is sound
}

// newGrid lays points evenly over centre ± reach.
func newGrid(centre, reach float64, points int) grid {
	g := grid{logLoss: make([]float64, points), loss: make([]float64, points)}
	for i := range points {
		g.logLoss[i] = centre + reach*(2*float64(i)/float64(points-1)-1)
		g.loss[i] = math.Exp(g.logLoss[i])
	}
	return g
}

// filter fills the grid from a runner's segments and moves the height on by the
// passes since its last reading.
func (g grid) filter(c Constants, segments []Segment, since float64) grid {
	last := segments[len(segments)-1]
	_, _, readings := last.begin()
	g.state, g.log = make([]normal, len(g.loss)), make([]float64, len(g.loss))
	g.sound = make([][]float64, len(readings))
	for r := range readings {
		g.sound[r] = make([]float64, len(g.loss))
	}
	sound := make([]float64, len(readings))
	for i, loss := range g.loss {
		f := filter{Constants: c, loss: loss}
		for _, s := range segments[:len(segments)-1] {
			f.run(s, nil)
		}
		f.run(last, sound)
		for r := range sound {
			g.sound[r][i] = sound[r]
		}
		f.grind(since)
		g.state[i], g.log[i] = f.state, f.logLikelihood
	}
	return g
}

// normalised turns logarithms of weights into weights that add up to 1.
func normalised(logs []float64) []float64 {
	top := math.Inf(-1)
	for _, l := range logs {
		top = math.Max(top, l)
	}
	weights, sum := make([]float64, len(logs)), 0.0
	for i, l := range logs {
		weights[i] = math.Exp(l - top)
		sum += weights[i]
	}
	for i := range weights {
		weights[i] /= sum
	}
	return weights
}
