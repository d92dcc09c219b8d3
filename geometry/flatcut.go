package geometry

import (
	"cmp"
	"fmt"
)

// FlatCut is a flat-bottomed cut across a runner: a flat in the middle and, to
// each side of it, a straight slope up to the edge. Angles are those of
// HollowShape.
type FlatCut struct {
	FlatWidth  Millimetre `json:"flat_width_mm"`        // of the flat in the middle
	EdgeHeight Millimetre `json:"edge_height_mm"`       // edges above the flat
	Thickness  Millimetre `json:"thickness_mm"`         // of the runner
	EdgeAngle  Degree     `json:"edge_angle_deg"`       // steel left at each edge
	BiteAngle  Degree     `json:"bite_angle_deg"`       // slope at each edge
	EqualBite  Millimetre `json:"equal_bite_radius_mm"` // hollow with the same bite angle
}

// FlatBottomedCut is the shape of a cut with a flat and an edge height, centred
// on the runner: bite angle atan(2e/(w−f)), radius of equal bite w/(2 sin β).
// All three lengths are above 0 and the flat is narrower than the runner. A cut
// whose sides are curved bites a little more than this says, since a curve is
// steepest at the edge (common practice, no source).
func FlatBottomedCut(flatWidth, edgeHeight, thickness Millimetre) (FlatCut, error) {
	if err := cmp.Or(requirePositive("flat width", flatWidth), requirePositive("edge height", edgeHeight), requirePositive("runner thickness", thickness)); err != nil {
		return FlatCut{}, err
	}
	if flatWidth >= thickness {
		return FlatCut{}, outOfRange("flat width", flatWidth, "keep it below the thickness, "+thickness.String())
	}
	bite := arctangent(edgeHeight, (thickness-flatWidth)/2)
	equal, err := HollowFromBite(bite, thickness)
	if err != nil {
		return FlatCut{}, err
	}
	return FlatCut{
		FlatWidth: flatWidth, EdgeHeight: edgeHeight, Thickness: thickness,
		EdgeAngle: 90 - bite, BiteAngle: bite, EqualBite: equal.Radius,
	}, nil
}

// Meaning says in one sentence which round hollow the cut bites like.
func (c FlatCut) Meaning() string {
	cut := FormatFlatCut(c.FlatWidth, c.EdgeHeight)
	shop := shopRadius(c.EqualBite, c.Thickness)
	if shop > maxShopHollow {
		return fmt.Sprintf("%s bites like a hollow of %s.", cut, trimmed(c.EqualBite))
	}
	return fmt.Sprintf("%s bites like a hollow of %s; %s is the nearest round one.", cut, trimmed(c.EqualBite), FormatHollow(shop))
}
