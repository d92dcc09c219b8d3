package geometry

import (
	"fmt"
	"math"
)

// EqualBite is the hollow that bites on one runner as another hollow does on a
// runner of another thickness.
type EqualBite struct {
	From      HollowShape `json:"from"`            // the hollow that is known
	Exact     HollowShape `json:"exact"`           // same bite angle on the other thickness
	Sixteenth HollowShape `json:"sixteenth"`       // Exact to the nearest sixteenth of an inch
	Off       Degree      `json:"bite_change_deg"` // bite angle of Sixteenth minus that of From
}

// EqualBiteHollow carries a hollow to another thickness. The bite angle
// asin(w/2R) stays when w/R stays, so the exact radius is R·other/thickness.
// The shop's radius is the nearest sixteenth of an inch, and never one that is
// too small for the runner. Ranges as for Hollow.
func EqualBiteHollow(radius, thickness, other Millimetre) (EqualBite, error) {
	from, err := Hollow(radius, thickness)
	if err != nil {
		return EqualBite{}, err
	}
	if err := requirePositive("other runner's thickness", other); err != nil {
		return EqualBite{}, err
	}
	exact, err := Hollow(radius*(other/thickness), other)
	if err != nil {
		return EqualBite{}, err
	}
	rounded, err := Hollow(shopRadius(exact.Radius, other), other)
	if err != nil {
		return EqualBite{}, err
	}
	return EqualBite{From: from, Exact: exact, Sixteenth: rounded, Off: rounded.BiteAngle - from.BiteAngle}, nil
}

// shopRadius is the nearest sixteenth that still reaches across the runner.
func shopRadius(radius, thickness Millimetre) Millimetre {
	least := Millimetre(math.Ceil(float64(thickness/2/sixteenth))) * sixteenth
	return max(NearestSixteenth(radius), least)
}

// Meaning says in one sentence what to grind.
func (e EqualBite) Meaning() string {
	return fmt.Sprintf("On %s steel %s bites like %s on %s steel (off by %+.2f°).",
		trimmed(e.Sixteenth.Thickness), FormatHollow(e.Sixteenth.Radius),
		FormatHollow(e.From.Radius), trimmed(e.From.Thickness), float64(e.Off))
}
