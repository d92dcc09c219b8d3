package geometry

import (
	"cmp"
	"fmt"
	"math"
)

// StrengthCaution goes with every strength that is shown.
const StrengthCaution = "A guide, not a limit: cracks, heat and the maker's limits are not in it; do not skate on cracked steel."

// CubicMillimetre measures a section modulus.
type CubicMillimetre float64

// SectionModulus of a runner standing upright is b·h²/6: bending moment divided
// by it is the stress in the outermost steel. Thickness b and height h are
// above 0; the height is the whole runner's, top to edge. The hollow is left
// out: at 1/2 in on 2.9 mm it takes 0.06 mm of mean height.
//
// Source: Machinery's Handbook, 31st ed., moments of inertia and section moduli
// (rectangle).
func SectionModulus(thickness, height Millimetre) (CubicMillimetre, error) {
	if err := requireSection(thickness, height); err != nil {
		return 0, err
	}
	return CubicMillimetre(thickness * height * height / 6), nil
}

func requireSection(thickness, height Millimetre) error {
	if err := requirePositive("runner thickness", thickness); err != nil {
		return err
	}
	return requirePositive("runner height", height)
}

// StrengthLeft compares a worn runner with itself when new; 1 is all of it.
type StrengthLeft struct {
	Height    Millimetre `json:"height_mm"`
	New       Millimetre `json:"height_new_mm"`
	Strength  float64    `json:"strength_left"`  // load it bears upright, (h/h₀)²
	Stiffness float64    `json:"stiffness_left"` // against bending upright, (h/h₀)³
	Sideways  float64    `json:"sideways_left"`  // strength and stiffness to the side, h/h₀
}

// LeftOfStrength is the bending strength and stiffness left at a height, as
// ratios to those at the height new: thickness and steel stay, so only the
// height counts. Heights are the whole runner's, top to edge, above 0, the worn
// one at most the new one.
//
// Source: the rectangle's b·h²/6 and b·h³/12 upright, h·b²/6 and h·b³/12
// sideways (Machinery's Handbook, 31st ed.).
func LeftOfStrength(height, heightNew Millimetre) (StrengthLeft, error) {
	if err := cmp.Or(requirePositive("height", height), requirePositive("height new", heightNew)); err != nil {
		return StrengthLeft{}, err
	}
	if height > heightNew {
		return StrengthLeft{}, outOfRange("height", height, "it cannot pass the height new, "+heightNew.String())
	}
	ratio := float64(height / heightNew)
	return StrengthLeft{
		Height: height, New: heightNew,
		Strength: ratio * ratio, Stiffness: ratio * ratio * ratio, Sideways: ratio,
	}, nil
}

// Meaning says in one sentence what is left, and that it is only a guide.
func (s StrengthLeft) Meaning() string {
	percent := func(ratio float64) float64 { return math.Round(100 * ratio) }
	return fmt.Sprintf("The steel bears %.0f %% of what it bore new and is %.0f %% as stiff. %s",
		percent(s.Strength), percent(s.Stiffness), StrengthCaution)
}
