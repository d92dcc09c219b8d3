package geometry

import (
	"cmp"
	"fmt"
	"math"
)

// levelPitch is what prints as 0.0 mm and reads as neutral.
const levelPitch Millimetre = 0.05

// PitchAngle is the tilt that a pitch gives the boot, atan((heel−toe)/span):
// heel and toe are the runner's heights, span the distance between the two
// places. Positive is forward: more steel under the heel tips the skater to the
// toe. The span is above 0.
func PitchAngle(heelMinusToe, span Millimetre) (Degree, error) {
	if err := cmp.Or(requireFinite("heel minus toe", heelMinusToe), requirePositive("span between heel and toe", span)); err != nil {
		return 0, err
	}
	return arctangent(heelMinusToe, span), nil
}

// PitchShape is a pitch on a profile and what it does.
type PitchShape struct {
	HeelMinusToe Millimetre `json:"heel_minus_toe_mm"`
	Span         Millimetre `json:"span_mm"`
	Radius       Millimetre `json:"radius_mm"`
	Angle        Degree     `json:"pitch_deg"`  // tilt of the boot, positive forward
	BalancePoint Millimetre `json:"balance_mm"` // station, from the middle to the toe
	Word         string     `json:"pitch"`      // forward, neutral or back
}

// Pitch says what heel minus toe over a span does on a profile of one radius.
// Ranges as for PitchAngle and BalanceAt.
func Pitch(radius, heelMinusToe, span Millimetre) (PitchShape, error) {
	angle, err := PitchAngle(heelMinusToe, span)
	if err != nil {
		return PitchShape{}, err
	}
	balance, err := BalanceAt(radius, heelMinusToe, span)
	if err != nil {
		return PitchShape{}, err
	}
	return PitchShape{
		HeelMinusToe: heelMinusToe, Span: span, Radius: radius,
		Angle: angle, BalancePoint: balance, Word: PitchWord(heelMinusToe),
	}, nil
}

// Meaning says in one sentence how the skater stands.
func (p PitchShape) Meaning() string {
	return fmt.Sprintf("Pitch %s tilts the boot by %.2f°; with the boot level the steel is lowest %s.",
		FormatPitch(p.HeelMinusToe), math.Abs(float64(p.Angle)), fromMiddle(p.BalancePoint))
}

// PitchWord names a pitch: forward (heel higher), back (toe higher), or neutral
// below 0.05 mm, which a caliper does not repeat.
func PitchWord(heelMinusToe Millimetre) string {
	switch {
	case math.IsNaN(float64(heelMinusToe)):
		return "not known"
	case heelMinusToe.abs() < levelPitch:
		return "neutral"
	case heelMinusToe > 0:
		return "forward"
	}
	return "back"
}

// FormatPitch writes a pitch in word and number: "forward +1.0 mm".
func FormatPitch(heelMinusToe Millimetre) string {
	word := PitchWord(heelMinusToe)
	if word == "neutral" || word == "not known" {
		return word
	}
	return fmt.Sprintf("%s %+.1f mm", word, float64(heelMinusToe))
}
