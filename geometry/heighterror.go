package geometry

import (
	"fmt"
	"math"
)

// Doubt is a standard error (one standard deviation) and where it comes from.
type Doubt struct {
	Caliper Millimetre `json:"caliper_mm"` // from the heights
	Station Millimetre `json:"station_mm"` // from the stations
	Total   Millimetre `json:"total_mm"`
}

// RockerDoubt is how well heights pin a profile down.
type RockerDoubt struct {
	Rocker
	RadiusDoubt  Doubt      `json:"radius_error"`
	BalanceDoubt Doubt      `json:"balance_error"`
	PitchDoubt   Doubt      `json:"pitch_error"`
	RadiusLow    Millimetre `json:"radius_low_mm"`            // about 95 % lies between these
	RadiusHigh   Millimetre `json:"radius_high_mm,omitempty"` // 0: it may as well be flat
	Misfit       float64    `json:"misfit"`                   // scatter against the errors given; 0 for three heights or no errors
}

// RockerWithDoubt is RockerFromHeights with its uncertainty, for a standard
// error of the caliper and one of the stations, each 0 or more, each height and
// each station missing on its own. The errors go through to first order, one
// input moved at a time. The 95 % range of the radius is taken two standard
// errors wide in 1/R, where the errors are even, so it is longer upwards.
//
// Source: JCGM 100:2008 (GUM), clauses 5.1.2 and 5.1.3 note 2 (from memory).
func RockerWithDoubt(heights []HeightAt, caliper, station Millimetre) (RockerDoubt, error) {
	if err := requireNotNegative("caliper error", caliper); err != nil {
		return RockerDoubt{}, err
	}
	if err := requireNotNegative("station error", station); err != nil {
		return RockerDoubt{}, err
	}
	rocker, err := RockerFromHeights(heights)
	if err != nil {
		return RockerDoubt{}, err
	}
	byCaliper, err := propagate(heights, caliper, func(h *HeightAt, by Millimetre) { h.Height += by })
	if err != nil {
		return RockerDoubt{}, err
	}
	byStation, err := propagate(heights, station, func(h *HeightAt, by Millimetre) { h.Station += by })
	if err != nil {
		return RockerDoubt{}, err
	}
	doubt := RockerDoubt{
		Rocker:       rocker,
		RadiusDoubt:  together(byCaliper.radius, byStation.radius),
		BalanceDoubt: together(byCaliper.balance, byStation.balance),
		PitchDoubt:   together(byCaliper.pitch, byStation.pitch),
		Misfit:       misfit(rocker, heights, caliper, station),
	}
	doubt.RadiusLow, doubt.RadiusHigh = radiusRange(rocker.Radius, doubt.RadiusDoubt.Total)
	return doubt, nil
}

func together(caliper, station Millimetre) Doubt {
	return Doubt{Caliper: caliper, Station: station, Total: Millimetre(math.Hypot(float64(caliper), float64(station)))}
}

// spread holds the standard errors that one kind of input causes.
type spread struct{ radius, balance, pitch Millimetre }

// probe is the part of a standard error by which inputs are moved: small enough
// that the answer moves in proportion, large enough to be far above rounding.
const probe = 1.0 / 16

// propagate moves each input up and down by a little and adds up the squares of
// what comes out of it.
func propagate(heights []HeightAt, sd Millimetre, move func(*HeightAt, Millimetre)) (spread, error) {
	var sum spread
	if sd == 0 {
		return sum, nil
	}
	for i := range heights {
		var side [2]Rocker
		for k, by := range []Millimetre{probe * sd, -probe * sd} {
			moved := append([]HeightAt(nil), heights...)
			move(&moved[i], by)
			rocker, err := RockerFromHeights(moved)
			if err != nil {
				return spread{}, fmt.Errorf("an error of %v hides the curve: measure better or wider apart: %w", sd, err)
			}
			side[k] = rocker
		}
		change := func(up, down Millimetre) Millimetre { return (up - down) / (2 * probe) }
		sum.add(change(side[0].Radius, side[1].Radius),
			change(side[0].BalancePoint, side[1].BalancePoint),
			change(side[0].HeelMinusToe, side[1].HeelMinusToe))
	}
	return sum, nil
}

func (s *spread) add(radius, balance, pitch Millimetre) {
	hypot := func(a, b Millimetre) Millimetre { return Millimetre(math.Hypot(float64(a), float64(b))) }
	s.radius, s.balance, s.pitch = hypot(s.radius, radius), hypot(s.balance, balance), hypot(s.pitch, pitch)
}

// radiusRange is 1/(1/R ± 2u), u the standard error of 1/R.
func radiusRange(radius, doubt Millimetre) (low, high Millimetre) {
	bend, u := 1/radius, doubt/(radius*radius)
	low = 1 / (bend + 2*u)
	if bend > 2*u {
		high = 1 / (bend - 2*u)
	}
	return low, high
}
