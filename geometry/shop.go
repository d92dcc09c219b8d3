package geometry

import (
	"fmt"
	"math"
	"strconv"
)

// ShopLength writes a radius as a shop says it: whole or half feet from one foot up
// ("11 ft"), inches in sixteenths up to three inches ("1/2 in", "1 1/8 in"), and
// everything else in millimetres ("14.20 mm"). It never rounds by more than 0.005 mm.
func ShopLength(l Millimetre) string {
	const tolerance = 0.005 // mm; half of the last digit that a caliper shows
	near := func(unit Millimetre) (int, bool) {
		count := math.Round(float64(l / unit))
		return int(count), count > 0 && math.Abs(float64(l)-count*float64(unit)) < tolerance
	}
	foot := Inch(inchesPerFoot).Millimetres()
	if halves, ok := near(foot / 2); ok && halves >= 2 {
		return strconv.FormatFloat(float64(halves)/2, 'f', -1, 64) + " ft"
	}
	if sixteenths, ok := near(Inch(1).Millimetres() / 16); ok && sixteenths <= 48 {
		return mixedFraction(sixteenths, 16) + " in"
	}
	return l.String()
}

// mixedFraction writes count/of in lowest terms: 8/16 is "1/2", 18/16 is "1 1/8".
func mixedFraction(count, of int) string {
	whole, part := count/of, count%of
	if part == 0 {
		return strconv.Itoa(whole)
	}
	for part%2 == 0 {
		part, of = part/2, of/2
	}
	if whole == 0 {
		return fmt.Sprintf("%d/%d", part, of)
	}
	return fmt.Sprintf("%d %d/%d", whole, part, of)
}
