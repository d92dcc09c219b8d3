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
