package geometry

import (
	"errors"
	"fmt"
	"math"
)

// ErrOutOfRange is wrapped by every error about a value that a formula cannot
// take: not a number, zero or negative where a length is needed, below 1e-12 or
// above 1e12 mm, a runner thicker than its hollow allows.
var ErrOutOfRange = errors.New("out of range")

// outOfRange names the quantity, its value and what to do about it.
func outOfRange(quantity string, value fmt.Stringer, remedy string) error {
	return fmt.Errorf("%s of %v is %w: %s", quantity, value, ErrOutOfRange, remedy)
}

func isFinite(value float64) bool { return !math.IsNaN(value) && !math.IsInf(value, 0) }

// Lengths beyond these are no lengths of steel but slips of the keyboard; within
// them no formula here runs over.
const (
	shortest Millimetre = 1e-12
	longest  Millimetre = 1e12
)

func requireFinite(quantity string, l Millimetre) error {
	if !(l.abs() <= longest) {
		return outOfRange(quantity, l, "give a number with its unit")
	}
	return nil
}

func requirePositive(quantity string, l Millimetre) error {
	if !(l >= shortest && l <= longest) {
		return outOfRange(quantity, l, "give a length above 0 mm")
	}
	return nil
}

func requireNotNegative(quantity string, l Millimetre) error {
	if !(l >= 0 && l <= longest) {
		return outOfRange(quantity, l, "give 0 mm or more")
	}
	return nil
}

// requireAngle wants an angle above lowest and below highest.
func requireAngle(quantity string, a, lowest, highest Degree) error {
	if isFinite(float64(a)) && a > lowest && a < highest {
		return nil
	}
	return outOfRange(quantity, a, fmt.Sprintf("give an angle between %v and %v", lowest, highest))
}
