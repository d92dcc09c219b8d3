package wear

import (
	"math"

	"steeltally/geometry"
)

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

// HeightQuestion is why to ask once more when a height is entered.
type HeightQuestion int

const (
	// NothingToAsk: the height is plausible.
	NothingToAsk HeightQuestion = iota
	// OutsideSteel: no runner is so low or so high.
	OutsideSteel
	// Grown: steel does not grow; the one before or this one is wrong.
	Grown
)

// Bounds of what a height can be, common practice, no source.
const (
	lowestSteel  geometry.Millimetre = 5
	highestSteel geometry.Millimetre = 30
	mayGrow      geometry.Millimetre = 0.3 // by errors of the caliper alone
)

// AskAbout says whether a height that is being entered should be asked about
// where a person can answer; it is kept as given in any case. Before is the
// last height of the same series, 0 for none.
func AskAbout(height, before geometry.Millimetre) HeightQuestion {
	switch {
	case !(height >= lowestSteel && height <= highestSteel):
		return OutsideSteel
	case before > 0 && height > before+mayGrow:
		return Grown
	}
	return NothingToAsk
}
