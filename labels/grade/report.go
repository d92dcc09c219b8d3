// Package grade measures how well a symbol is printed, from a picture of it, by the
// parameters of ISO/IEC 15415:2011 that a picture can show. The result is
// indicative: a picture has no calibrated light, aperture or angle.
package grade

import "steeltally/labels/symbol"

// Parameter is one measured property of a symbol.
type Parameter struct {
	Name  string
	Value float64 // a share, or for non-uniformity a part of a module; 1 is 100 %
	Level Level
}

// The names of the parameters, in the order they are measured.
const (
	Decode            = "decode" // 1 where it can be read with one threshold, else 0
	SymbolContrast    = "symbol contrast"
	Modulation        = "modulation" // of the worst codeword
	AxialUniformity   = "axial non-uniformity"
	GridUniformity    = "grid non-uniformity"
	UnusedCorrection  = "unused error correction"
	QuietZone         = "quiet zone" // share of it that is dark
	apertureOfAModule = 0.8
)

// Report is the measure of one symbol. It is indicative, see the package's comment.
type Report struct {
	Symbology  symbol.Symbology
	Text       string // what it says; empty where it can't be read
	Parameters []Parameter
	Overall    Level   // the lowest of all
	Aperture   float64 // diameter of the spots that were measured, in modules
}

// add appends a parameter and keeps the lowest level.
func (r *Report) add(name string, value float64, level Level) {
	if len(r.Parameters) == 0 || level < r.Overall {
		r.Overall = level
	}
	r.Parameters = append(r.Parameters, Parameter{name, value, level})
}

// Edition is the standard whose parameters and thresholds are used.
const Edition = "ISO/IEC 15415:2011"

// Level is a grade from 4, the best, to 0, a failure.
type Level int

// Letter is the grade as verifiers print it: A, B, C, D or F.
func (l Level) Letter() string {
	if l < 0 || l > 4 {
		return "F"
	}
	return string("FDCBA"[l])
}

// The least, or greatest, values of the levels 4, 3, 2 and 1 (ISO/IEC 15415:2011,
// as verifiers' manuals give them).
type scale [4]float64

var (
	contrastScale   = scale{0.70, 0.55, 0.40, 0.20}
	modulationScale = scale{0.50, 0.40, 0.30, 0.20}
	spareScale      = scale{0.62, 0.50, 0.37, 0.25}
	axialScale      = scale{0.06, 0.08, 0.10, 0.12}
	gridScale       = scale{0.38, 0.50, 0.63, 0.75}
	// quietScale is the share of wrong modules that is allowed in the quiet zone of
	// Data Matrix (ISO/IEC 16022, fixed pattern damage; from memory), used for both.
	quietScale = scale{0, 0.09, 0.13, 0.17}
)

// atLeast grades a value that should be large.
func (s scale) atLeast(value float64) Level {
	for i, least := range s {
		if value >= least {
			return Level(4 - i)
		}
	}
	return 0
}

// atMost grades a value that should be small.
func (s scale) atMost(value float64) Level {
	for i, most := range s {
		if value <= most {
			return Level(4 - i)
		}
	}
	return 0
}

// Thresholds are the least values of a parameter for the levels 4, 3, 2 and 1, or the
// greatest where less is better; false for one that is passed or failed only.
func Thresholds(parameter string) ([4]float64, bool) {
	switch parameter {
	case SymbolContrast:
		return contrastScale, true
	case Modulation:
		return modulationScale, true
	case AxialUniformity:
		return axialScale, true
	case GridUniformity:
		return gridScale, true
	case UnusedCorrection:
		return spareScale, true
	case QuietZone:
		return quietScale, true
	}
	return [4]float64{}, false
}
