package geometry

import (
	"fmt"
	"math"
	"strconv"
)

const (
	// sixteenth of an inch: the step in which hollows are named.
	sixteenth Millimetre = millimetresPerInch / 16
	foot      Millimetre = millimetresPerInch * inchesPerFoot

	// A radius that was rounded to 0.01 mm (hollow) or 1 mm (profile) before it
	// got here still counts as the fraction it came from.
	hollowRounding  Millimetre = 0.0051
	profileRounding Millimetre = 0.5

	// maxShopHollow is the flattest hollow that is named in inches; flatter ones
	// are told in millimetres (common practice, no source).
	maxShopHollow = 32 * sixteenth
)

func (l Millimetre) abs() Millimetre { return Millimetre(math.Abs(float64(l))) }

// NearestSixteenth rounds a length to the nearest sixteenth of an inch, halves
// away from zero.
func NearestSixteenth(l Millimetre) Millimetre {
	return Millimetre(math.Round(float64(l/sixteenth))) * sixteenth
}

// FormatHollow writes a hollow's radius as the shop says it: "1/2 in",
// "1 1/8 in"; what is no sixteenth of an inch, up to 2 in, stays in
// millimetres: "12.5 mm". A length that is none reads "not known".
func FormatHollow(radius Millimetre) string {
	if requirePositive("", radius) != nil {
		return "not known"
	}
	near := NearestSixteenth(radius)
	if near == 0 || near > maxShopHollow || (near-radius).abs() > hollowRounding {
		return trimmed(radius)
	}
	return mixedFraction(int(math.Round(float64(near/sixteenth))), 16) + " in"
}

// FormatProfile writes a profile's radius as the shop says it, in whole and half
// feet: "11 ft", "10 1/2 ft"; any other in whole millimetres: "3400 mm". A
// length that is none reads "not known".
func FormatProfile(radius Millimetre) string {
	if requirePositive("", radius) != nil {
		return "not known"
	}
	halves := math.Round(float64(2 * radius / foot))
	if halves == 0 || (Millimetre(halves)*foot/2-radius).abs() > profileRounding {
		return fmt.Sprintf("%.0f mm", float64(radius))
	}
	return mixedFraction(int(halves), 2) + " ft"
}

// FormatFlatCut writes a flat-bottomed cut: "2 mm flat, 0.05 mm edges".
func FormatFlatCut(flatWidth, edgeHeight Millimetre) string {
	return trimmed(flatWidth) + " flat, " + trimmed(edgeHeight) + " edges"
}

// trimmed writes millimetres to two decimals without idle zeros: "2.9 mm".
func trimmed(l Millimetre) string {
	hundredths := math.Round(float64(l)*100) / 100
	return strconv.FormatFloat(hundredths, 'f', -1, 64) + " mm"
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
