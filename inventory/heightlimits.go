package inventory

import (
	"fmt"

	"steeltally/geometry"
)

// A runner's height is within these; outside it is another unit or a slip.
const (
	leastHeight geometry.Millimetre = 5
	mostHeight  geometry.Millimetre = 30

	// HeightLimitsHint says what they are.
	HeightLimitsHint = "heights are in mm from 5 to 30; an inch needs its unit"
)

// CheckHeight refuses a height that no runner has.
func CheckHeight(what string, height geometry.Millimetre) error {
	if !(height >= leastHeight && height <= mostHeight) {
		return RefuseValue(fmt.Sprintf("%s %s can't be right", what, height), HeightLimitsHint)
	}
	return nil
}
