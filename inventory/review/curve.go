package review

import (
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// Curve is a runner's height after so many passes, as far as every pass is known.
type Curve struct {
	Passes, Heights []float64
}

// Curve is what a life's heights draw, from its height when new.
func (l *Life) Curve(at time.Time) Curve {
	if l.runner == nil || l.FromTag {
		var c Curve
		if l.New != nil && l.Final != nil && !l.Unknown && l.Passes > 0 {
			c.add(0, float64(*l.New))
			c.add(float64(l.Passes), float64(*l.Final))
		}
		return c
	}
	return CurveOf(l.runner, at)
}

// CurveOf is what a runner's heights draw until an instant.
func CurveOf(r *inventory.Runner, at time.Time) Curve {
	if curves := CurvesOf(r, at); len(curves) > 0 {
		return curves[0]
	}
	return Curve{}
}

// CurvesOf is CurveOf, with a curve more after each time that nobody counted the passes;
// those are left out of the passes that come after.
func CurvesOf(r *inventory.Runner, at time.Time) []Curve {
	var curves []Curve
	for i, stretch := range standing.Telling(r, at).Stretches {
		var c Curve
		before := 0
		if i > 0 && len(stretch.Readings) > 0 {
			before = countedUntil(r, stretch.Readings[0].When.Start)
		}
		if stretch.New && r.Height != nil && (len(stretch.Readings) == 0 || stretch.Readings[0].Passes > 0) {
			c.add(0, float64(*r.Height))
		}
		for _, reading := range stretch.Readings {
			c.add(float64(before+reading.Passes), float64(reading.Height))
		}
		curves = append(curves, c.falling())
	}
	return curves
}

// countedUntil is how many passes of a runner were counted until an instant.
func countedUntil(r *inventory.Runner, at time.Time) int {
	passes := 0
	for _, work := range r.Works.Until(at) {
		if work.Value.Passes != nil && work.Value.Kind != inventory.WorkHone {
			passes += *work.Value.Passes
		}
	}
	return passes
}

// mayRise is by how much a caliper may read higher than before, mm; common practice, no
// source.
const mayRise = 0.3

// falling keeps the most points of which each lies below the one before: steel does not
// grow, so the others are slips of the caliper.
func (c Curve) falling() Curve {
	n := len(c.Heights)
	length, before := make([]int, n), make([]int, n)
	best := -1
	for i := range n {
		length[i], before[i] = 1, -1
		for j := range i {
			if c.Heights[i] <= c.Heights[j]+mayRise && length[j] >= length[i] {
				length[i], before[i] = length[j]+1, j
			}
		}
		if best < 0 || length[i] > length[best] {
			best = i
		}
	}
	var kept Curve
	for i := best; i >= 0; i = before[i] {
		kept.Passes, kept.Heights = append(kept.Passes, c.Passes[i]), append(kept.Heights, c.Heights[i])
	}
	slices.Reverse(kept.Passes)
	slices.Reverse(kept.Heights)
	return kept
}

func (c *Curve) add(passes, height float64) {
	c.Passes, c.Heights = append(c.Passes, passes), append(c.Heights, height)
}

// SetsApart are by how many per cent more a pass took off the left side of each set
// than off the right, in the order in which the sets came off.
func (p *Player) SetsApart() []float64 { return p.apart }
