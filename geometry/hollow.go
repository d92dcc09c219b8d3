package geometry

import (
	"cmp"
	"fmt"
	"math"
)

// HollowShape is a round hollow ground along a runner, seen across the steel.
//
// At each edge the hollow meets the straight side of the runner. The two angles
// say how, and add up to 90°:
//
//   - EdgeAngle is the angle of steel between the hollow and the side, that of
//     the wedge which cuts: 90° − asin(w/2R). A smaller one is sharper; flat
//     steel has 90°.
//   - BiteAngle is the slope of the hollow at the edge against flat steel:
//     asin(w/2R). A larger one bites more; flat steel has 0°.
//
// The trade speaks of more or less bite and means more of it for a deeper
// hollow, so the angle that grows with depth carries that name (common
// practice, no source). The formulas are plain circle geometry.
type HollowShape struct {
	Radius    Millimetre `json:"radius_mm"`      // of the hollow
	Thickness Millimetre `json:"thickness_mm"`   // of the runner, edge to edge
	Depth     Millimetre `json:"depth_mm"`       // middle of the hollow below the edges
	EdgeAngle Degree     `json:"edge_angle_deg"` // steel left at each edge
	BiteAngle Degree     `json:"bite_angle_deg"` // slope of the hollow at each edge
}

// Hollow is the shape that a wheel of a radius leaves in a runner, centred:
// depth R − √(R² − w²/4). Both lengths are above 0 and the thickness w is at
// most 2R; usual are 9.5–25.4 mm (3/8–1 in) on 2.8–3.0 mm (common practice, no
// source).
//
// Source of the depth: Machinery's Handbook, 31st ed., p. 79.
func Hollow(radius, thickness Millimetre) (HollowShape, error) {
	if err := cmp.Or(requirePositive("hollow radius", radius), requirePositive("runner thickness", thickness)); err != nil {
		return HollowShape{}, err
	}
	if thickness > 2*radius {
		return HollowShape{}, outOfRange("hollow radius", radius,
			"give at least half the thickness, "+(thickness/2).String())
	}
	depth, err := SegmentHeight(radius, thickness)
	if err != nil {
		return HollowShape{}, err
	}
	bite := arcsine(float64(thickness / (2 * radius)))
	return HollowShape{
		Radius: radius, Thickness: thickness, Depth: depth,
		EdgeAngle: 90 - bite, BiteAngle: bite,
	}, nil
}

// HollowFromDepth is the hollow of a measured depth, R = (w² + 4d²)/8d, for
// 0 < depth ≤ thickness/2.
//
// Source: Machinery's Handbook, 31st ed., p. 79.
func HollowFromDepth(depth, thickness Millimetre) (HollowShape, error) {
	radius, err := SegmentRadius(thickness, depth)
	if err != nil {
		return HollowShape{}, err
	}
	if depth > thickness/2 {
		return HollowShape{}, outOfRange("hollow depth", depth,
			"a round hollow is at most half the thickness deep, "+(thickness/2).String())
	}
	return Hollow(radius, thickness)
}

// HollowFromBite is the hollow of a bite angle above 0° and below 90°,
// R = w/(2 sin β).
func HollowFromBite(bite Degree, thickness Millimetre) (HollowShape, error) {
	if err := cmp.Or(requireAngle("bite angle", bite, 0, 90), requirePositive("runner thickness", thickness)); err != nil {
		return HollowShape{}, err
	}
	return Hollow(thickness/Millimetre(2*sine(bite)), thickness)
}

// Meaning says in one sentence what the hollow is to the skater, beside the
// hollows an eighth of an inch deeper and flatter. That more bite means less
// glide is common practice; Sports Engineering 13:39–46 (2010) finds friction
// rising as the radius falls.
func (h HollowShape) Meaning() string {
	flatter := NearestSixteenth(h.Radius + 2*sixteenth)
	deeper := NearestSixteenth(h.Radius - 2*sixteenth)
	sentence := FormatHollow(h.Radius) + " bites more than " + FormatHollow(flatter) + " and glides less"
	if deeper < h.Radius && 2*deeper >= h.Thickness {
		sentence += "; " + FormatHollow(deeper) + " would bite still more"
	}
	return sentence + "."
}

// HollowRow is a line of the shop's hollow table.
type HollowRow struct {
	Name string `json:"name"` // as the shop says it: "1/2 in"
	HollowShape
	EqualBite Millimetre `json:"equal_bite_radius_mm"` // same bite on the other thickness
	Shop      string     `json:"equal_bite_name"`      // nearest sixteenth to it
}

// HollowTable is the shop's table for runners of a thickness: every sixteenth
// from 1/4 in to 1 in, then every eighth to 1 1/2 in, with the hollow of equal
// bite on runners of another thickness. Hollows too small for the runner are
// left out; both thicknesses are above 0 and at most 76.2 mm, where nothing is
// left.
func HollowTable(thickness, other Millimetre) ([]HollowRow, error) {
	if err := requirePositive("runner thickness", thickness); err != nil {
		return nil, err
	}
	var rows []HollowRow
	for n := 4; n <= 24; n += tableStep(n) {
		radius := Millimetre(n) * sixteenth
		if thickness > 2*radius {
			continue
		}
		equal, err := EqualBiteHollow(radius, thickness, other)
		if err != nil {
			return nil, err
		}
		rows = append(rows, HollowRow{
			Name: FormatHollow(radius), HollowShape: equal.From,
			EqualBite: equal.Exact.Radius, Shop: FormatHollow(equal.Sixteenth.Radius),
		})
	}
	if len(rows) == 0 {
		return nil, outOfRange("runner thickness", thickness, "no hollow up to 1 1/2 in fits: check the unit")
	}
	return rows, nil
}

// tableStep is the distance to the next row in sixteenths of an inch.
func tableStep(sixteenths int) int {
	if sixteenths < 16 {
		return 1
	}
	return 2
}

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
