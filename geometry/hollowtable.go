package geometry

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
