package wear

import "math"

const (
	// TellsLittle: a height after fewer passes than this since the one before is
	// mostly the caliper's error.
	TellsLittle = 30
	// MeasureAfter is the passes after which the next height is worth its while.
	MeasureAfter = 60
)

// NextHeight is in how many further passes to measure next, 0 for now, given
// those since the last height (or since new) and the middle guess of those
// left: after about 60, sooner where half of what is left comes first, but
// never after fewer than 30 altogether.
func NextHeight(since, left float64) float64 {
	whole := math.Min(MeasureAfter, math.Max(TellsLittle, since+left/2))
	return math.Max(0, whole-since)
}

// Doubt is what to make of a reading that was filtered.
type Doubt int

const (
	// NoDoubt: the reading is used.
	NoDoubt Doubt = iota
	// NotUsed: the reading is more likely bad than sound: say which and when.
	NotUsed
	// MeasureAgain: it is the last one and more likely bad than sound. One
	// reading cannot settle that; the interval is wider for it.
	MeasureAgain
)

// ReadingDoubt judges one of a forecast's Sound chances.
func ReadingDoubt(sound float64, last bool) Doubt {
	const evens = 0.5
	switch {
	case sound >= evens:
		return NoDoubt
	case last:
		return MeasureAgain
	}
	return NotUsed
}
