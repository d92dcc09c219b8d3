package wear

import (
	"math"

	"steeltally/inventory/wear/stats"
)

const clipSpread = 3 // robust spreads at which one difference is held

// sideSpread is how far the sides of one pair differ, their errors taken off.
func (c Constants) sideSpread(players [][]PairWear) float64 {
	var off []float64 // differences over √2
	errors := 0.0
	for _, pairs := range players {
		for _, w := range pairs {
			if len(w.Sides) == 2 {
				left, right := w.Sides[0], w.Sides[1]
				off = append(off, math.Abs(left.Value-right.Value)/math.Sqrt2)
				errors += (left.Variance + right.Variance) / 2
			}
		}
	}
	n := float64(len(off))
	if n == 0 {
		return c.SideSpread
	}
	seen := (heldSquares(off) - errors) / n
	return math.Sqrt(c.shrink(c.SideSpread, math.Max(0, seen), n))
}

// pairSpread is how far the pairs of one player differ, their errors taken off,
// and the degrees of freedom that say so.
func (c Constants) pairSpread(players []history) (spread, freedom float64) {
	var off []float64
	errors := 0.0
	for _, h := range players {
		n := float64(len(h.pairs))
		if n < 2 {
			continue
		}
		median := stats.Median(h.means())
		for _, q := range h.pairs {
			off = append(off, math.Abs(q.mean-median)*math.Sqrt(n/(n-1)))
		}
		freedom += n - 1
		errors += (n - 1) * h.meanError()
	}
	if freedom == 0 {
		return c.PairSpread, 0
	}
	squares := heldSquares(off) * freedom / float64(len(off))
	seen := (squares - errors) / freedom
	return math.Sqrt(c.shrink(c.PairSpread, math.Max(0, seen), freedom)), freedom
}

// heldSquares sums squares of distances, each held at three robust spreads.
func heldSquares(off []float64) float64 {
	limit := clipSpread * stats.MADScale * stats.Median(off)
	sum := 0.0
	for _, d := range off {
		d = math.Min(d, limit)
		sum += d * d
	}
	return sum
}
