package wear

import (
	"math"

	"steeltally/inventory/wear/stats"
)

const (
	guessWeight    = 4    // triples' worth that the guessed caliper counts for
	tripleWeight   = 0.37 // what a triple counts: a median uses 37 % of its readings
	leastCaliperSD = 0.02 // mm: finer than any caliper on steel
)

// CaliperVariance learns the variance (mm²) of a sound reading from how far the
// middle one of three consecutive heights lies off the line between the others.
// Give every segment of every runner of the club that was measured in one
// reference. The number of such triples is told beside it; with none it is the
// guess.
func (c Constants) CaliperVariance(segments []Segment) (variance float64, triples int) {
	var off, uneven []float64
	for _, s := range segments {
		for i := 2; i < len(s.Readings); i++ {
			if z, u, ok := bend(s.Readings[i-2], s.Readings[i-1], s.Readings[i]); ok {
				off, uneven = append(off, z), append(uneven, u)
			}
		}
	}
	guess := c.CaliperSD * c.CaliperSD
	if len(off) == 0 {
		return guess, 0
	}
	spread := stats.MADScale * stats.Median(off)
	seen := spread*spread - c.Unevenness*c.Loss*c.Loss*stats.Median(uneven)
	seen = math.Max(seen, leastCaliperSD*leastCaliperSD)
	weight := tripleWeight * float64(len(off))
	return (guessWeight*guess + weight*seen) / (guessWeight + weight), len(off)
}

// bend is the middle reading's distance from the line, in units of a reading's
// error, and the passes whose unevenness is in it in the same unit.
func bend(first, middle, last Reading) (off, uneven float64, ok bool) {
	d1, d2 := middle.Passes-first.Passes, last.Passes-middle.Passes
	if d1 <= 0 || d2 <= 0 {
		return 0, 0, false
	}
	a := d2 / (d1 + d2)
	b := 1 - a
	e := float64(middle.Height) - a*float64(first.Height) - b*float64(last.Height)
	unit := 1 + a*a + b*b
	return math.Abs(e) / math.Sqrt(unit), (a*a*d1 + b*b*d2) / unit, true
}
