// Package geometry holds the lengths, rectangles and steel geometry that the
// other rooms measure with. Everything here is a pure function of its input.
package geometry

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"
)

// Millimetre is a length in millimetres.
type Millimetre float64

// Inch is a length in international inches of exactly 25.4 mm.
type Inch float64

// Dot is a whole number of printer dots.
type Dot int

// DPI is a printer's resolution in dots per inch.
type DPI int

const (
	millimetresPerInch = 25.4 // exact: international yard and pound agreement, 1959
	inchesPerFoot      = 12
)

// Millimetres converts inches to millimetres.
func (l Inch) Millimetres() Millimetre { return Millimetre(l * millimetresPerInch) }

// Inches converts millimetres to inches.
func (l Millimetre) Inches() Inch { return Inch(l / millimetresPerInch) }

// Dots is the length in printer dots, rounded to the nearest whole dot.
func (l Millimetre) Dots(r DPI) Dot { return Dot(math.Round(float64(l.Inches()) * float64(r))) }

// Millimetres is the length that a number of dots has at a resolution.
func (d Dot) Millimetres(r DPI) Millimetre { return Inch(float64(d) / float64(r)).Millimetres() }

// ErrNoUnit says that a length that needs a unit was given without one.
var ErrNoUnit = errors.New("no unit")

// ParseLength reads "14.2mm", "1/2in", "0.5 in", "11ft" or "1.2m". It needs a
// unit; without one the error is ErrNoUnit.
func ParseLength(text string) (Millimetre, error) {
	s := strings.ToLower(strings.TrimSpace(text))
	scales := []struct {
		unit  string
		scale Millimetre
	}{
		{"mm", 1},
		{"in", Inch(1).Millimetres()},
		{`"`, Inch(1).Millimetres()},
		{"ft", Inch(inchesPerFoot).Millimetres()},
		{"'", Inch(inchesPerFoot).Millimetres()},
		{"m", 1000},
	}
	for _, u := range scales {
		number, found := strings.CutSuffix(s, u.unit)
		if !found {
			continue
		}
		value, err := parseFraction(strings.TrimSpace(number))
		if err != nil {
			return 0, fmt.Errorf("%q is not a length", text)
		}
		return Millimetre(value) * u.scale, nil
	}
	if _, err := parseFraction(s); err == nil {
		return 0, fmt.Errorf("%q: %w: write mm, in or ft behind it", text, ErrNoUnit)
	}
	return 0, fmt.Errorf("%q is not a length", text)
}

// ParseHeight reads a length where a bare number means millimetres, as on a caliper.
func ParseHeight(text string) (Millimetre, error) {
	if value, err := parseFraction(strings.TrimSpace(text)); err == nil {
		return Millimetre(value), nil
	}
	return ParseLength(text)
}

// parseFraction reads "12", "0.5", "1/2", "1 1/2" and each with a minus in front.
func parseFraction(s string) (float64, error) {
	whole, fraction, mixed := strings.Cut(s, " ")
	if !mixed {
		whole, fraction = "", s
	}
	top, bottom, divided := strings.Cut(fraction, "/")
	value, err := parseFinite(top)
	if err != nil {
		return 0, err
	}
	if divided {
		divisor, err := parseFinite(bottom)
		if err != nil || divisor == 0 {
			return 0, strconv.ErrSyntax
		}
		value /= divisor
	}
	if !mixed {
		return value, nil
	}
	if !divided {
		return 0, strconv.ErrSyntax
	}
	units, err := parseFinite(whole)
	if value < 0 {
		return 0, strconv.ErrSyntax
	}
	if strings.HasPrefix(whole, "-") {
		value = -value // "-1 1/2" lies below -1
	}
	return units + value, err
}

// parseFinite refuses what strconv would take but no caliper shows: signs in the
// middle, hexadecimals, "inf" and "nan".
func parseFinite(s string) (float64, error) {
	if s == "" || strings.Trim(s, "0123456789.-") != "" {
		return 0, strconv.ErrSyntax
	}
	return strconv.ParseFloat(s, 64)
}

// String writes a length to a hundredth of a millimetre: "11.20 mm".
func (l Millimetre) String() string { return fmt.Sprintf("%.2f mm", float64(l)) }

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
