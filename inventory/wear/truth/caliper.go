package truth

import (
	"math"
	"math/rand/v2"

	"steeltally/geometry"
)

// Caliper is how a club's caliper reads: all in mm.
type Caliper struct {
	Spread     float64 // standard deviation of a sound reading
	Step       float64 // readings are rounded to this; 0 leaves them as they are
	SlipSpread float64 // standard deviation that a slip adds
	WildShare  float64 // share of the bad readings that are wrong altogether: any height of steel
}

// Measure reads a true height.
func (c Caliper) Measure(r *rand.Rand, height geometry.Millimetre) geometry.Millimetre {
	return c.round(float64(height) + c.Spread*r.NormFloat64())
}

// Heights that a wholly wrong reading may lie between, mm.
const wildLow, wildHigh = 5.0, 30.0

// MeasureCarelessly reads a true height; a share of the readings, 0 to 1, are
// bad: a burr or a tilted jaw, or a number written down wrongly.
func (c Caliper) MeasureCarelessly(r *rand.Rand, height geometry.Millimetre, bad float64) geometry.Millimetre {
	reading := float64(height) + c.Spread*r.NormFloat64()
	switch u := r.Float64(); {
	case u < bad*c.WildShare:
		reading = wildLow + (wildHigh-wildLow)*r.Float64()
	case u < bad:
		reading += c.SlipSpread * r.NormFloat64()
	}
	return c.round(reading)
}

func (c Caliper) round(reading float64) geometry.Millimetre {
	if c.Step <= 0 {
		return geometry.Millimetre(reading)
	}
	return geometry.Millimetre(math.Round(reading/c.Step) * c.Step)
}
