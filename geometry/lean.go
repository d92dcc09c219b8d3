package geometry

import (
	"cmp"
	"fmt"
	"math"
)

// LeanCaution goes with every lean that is shown.
const LeanCaution = "A guide, not a limit: the maker's limits and a qualified fitter decide."

// HolderCorner is a lowest outer corner of holder or boot, seen from the front.
type HolderCorner struct {
	Width     Millimetre `json:"width_mm"`     // of holder or boot across that corner and its twin
	Clearance Millimetre `json:"clearance_mm"` // of the corner above the runner's edge: less as the steel wears
}

// Lean is the lean at which a corner touches the ice.
type Lean struct {
	Angle Degree       `json:"lean_angle_deg"` // from upright
	First HolderCorner `json:"first_touch"`    // the corner that touches
}

// LeanToTouch is the lean from upright at which the first of some corners
// touches the ice while the runner stands on the edge of that side. With the
// corner g = (width − thickness)/2 beside the edge and h above it, and the edge δ
// in the ice: atan(h/g) − asin(δ/√(h²+g²)). Plain geometry of a rigid skate on
// flat ice; a boot that folds touches earlier. Thickness and corners are above
// 0, each corner wider than the runner and higher than the indentation of 0 or
// more.
func LeanToTouch(thickness, indentation Millimetre, corners ...HolderCorner) (Lean, error) {
	if len(corners) == 0 {
		return Lean{}, fmt.Errorf("a lean without a corner is %w: give width and clearance of the holder", ErrOutOfRange)
	}
	first := Lean{Angle: 91}
	for _, c := range corners {
		angle, err := leanTo(thickness, indentation, c)
		if err != nil {
			return Lean{}, err
		}
		if angle < first.Angle {
			first = Lean{Angle: angle, First: c}
		}
	}
	return first, nil
}

func leanTo(thickness, indentation Millimetre, c HolderCorner) (Degree, error) {
	beside, err := besideEdge(thickness, c.Width)
	if err != nil {
		return 0, err
	}
	if err := cmp.Or(requireNotNegative("indentation", indentation), requirePositive("clearance", c.Clearance)); err != nil {
		return 0, err
	}
	if indentation >= c.Clearance {
		return 0, outOfRange("clearance", c.Clearance, "it lies in the ice already: more than "+indentation.String())
	}
	reach := math.Hypot(float64(c.Clearance), float64(beside))
	return arctangent(c.Clearance, beside) - arcsine(float64(indentation)/reach), nil
}

// besideEdge is how far a corner stands out beside the edge.
func besideEdge(thickness, width Millimetre) (Millimetre, error) {
	if err := cmp.Or(requirePositive("runner thickness", thickness), requirePositive("holder width", width)); err != nil {
		return 0, err
	}
	if width <= thickness {
		return 0, outOfRange("holder width", width, "it must be wider than the runner, "+thickness.String())
	}
	return (width - thickness) / 2, nil
}

// ClearanceForLean is the clearance that a lean from 0° up to, but not, 90°
// needs under a holder of a width: h = (δ + g·sin λ)/cos λ, the other way round
// from LeanToTouch.
func ClearanceForLean(thickness, indentation, width Millimetre, lean Degree) (Millimetre, error) {
	beside, err := besideEdge(thickness, width)
	if err != nil {
		return 0, err
	}
	if err := requireNotNegative("indentation", indentation); err != nil {
		return 0, err
	}
	if !(lean >= 0 && lean < 90) {
		return 0, outOfRange("lean", lean, "give 0° or more, below 90°")
	}
	return (indentation + beside*Millimetre(sine(lean))) / Millimetre(cosine(lean)), nil
}

// Meaning says in one sentence what the lean is to the skater, and that it is
// only a guide.
func (l Lean) Meaning() string {
	return fmt.Sprintf("Leaning past %.0f° from upright the holder meets the ice and lifts the edge out of it. %s",
		math.Floor(float64(l.Angle)), LeanCaution)
}
