package wear

import "math"

// alone is the log prior on a grid.
func (p Prior) alone(g grid) []float64 {
	logs := make([]float64, len(g.logLoss))
	for i, l := range g.logLoss {
		logs[i] = p.logDensity(l, p.Scale)
	}
	return logs
}

// withPartner is the log prior on a grid once the partner's heights are known:
// both sides lie about one pair, whose own prior is narrower by the spread of
// the sides.
func (p Prior) withPartner(partner grid) []float64 {
	if p.SideSpread == 0 {
		p.SideSpread = partner.logLoss[1] - partner.logLoss[0] // sides alike, as far as the grid tells
	}
	sides := newKernel(partner.logLoss, p.SideSpread)
	total := p.Scale * p.Scale
	narrow := math.Sqrt(math.Max(total-p.SideSpread*p.SideSpread, total/4))
	pairs := sides.spread(normalised(partner.log))
	for i, l := range partner.logLoss {
		pairs[i] *= math.Exp(p.logDensity(l, narrow))
	}
	own := sides.spread(pairs)
	for i := range own {
		own[i] = math.Log(own[i])
	}
	return own
}

// kernel spreads weights on a grid by a normal distribution.
type kernel []float64 // by distance in grid steps

const kernelReach = 9 // spreads beyond which nothing is carried

func newKernel(points []float64, sd float64) kernel {
	step := points[1] - points[0]
	reach := min(len(points)-1, int(kernelReach*sd/step)+1)
	k := make(kernel, reach+1)
	for d := range k {
		k[d] = density(float64(d)*step, sd*sd) * step
	}
	return k
}

func (k kernel) spread(weights []float64) []float64 {
	wide := make([]float64, len(weights))
	for i := range wide {
		for j := max(0, i-len(k)+1); j < min(len(weights), i+len(k)); j++ {
			wide[i] += k[max(i-j, j-i)] * weights[j]
		}
	}
	return wide
}
