package geometry

import (
	"fmt"
	"math"
)

// Radian is a plane angle in radians.
type Radian float64

// Degree is a plane angle in degrees; 180° are π radians.
type Degree float64

const degreesPerRadian = 180 / math.Pi

// Degrees converts radians to degrees.
func (a Radian) Degrees() Degree { return Degree(a * degreesPerRadian) }

// Radians converts degrees to radians.
func (a Degree) Radians() Radian { return Radian(a / degreesPerRadian) }

// String writes an angle to a hundredth of a degree: "83.44°".
func (a Degree) String() string { return fmt.Sprintf("%.2f°", float64(a)) }

func arcsine(ratio float64) Degree { return Radian(math.Asin(ratio)).Degrees() }

func arctangent(rise, run Millimetre) Degree {
	return Radian(math.Atan2(float64(rise), float64(run))).Degrees()
}

func sine(a Degree) float64   { return math.Sin(float64(a.Radians())) }
func cosine(a Degree) float64 { return math.Cos(float64(a.Radians())) }
