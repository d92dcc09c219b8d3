package modules

// Known is a module that has the same colour in every symbol of its kind and size.
type Known struct {
	Cell
	Dark bool
}

// KnownDataMatrix is the solid and alternating borders of a symbol's regions and
// one module of quiet zone around it (ISO/IEC 16022, 5.5.1).
func KnownDataMatrix(s DataMatrixSize) []Known {
	known := quietZone(s.Columns, s.Rows)
	width, height := s.regionColumns(), s.regionRows()
	for row := range s.Rows {
		for column := range s.Columns {
			x, y := column%width, row%height
			switch {
			case x == 0 || y == height-1:
				known = append(known, Known{Cell{column, row}, true})
			case y == 0:
				known = append(known, Known{Cell{column, row}, x%2 == 0})
			case x == width-1:
				known = append(known, Known{Cell{column, row}, y%2 == 1})
			}
		}
	}
	return known
}

// KnownQR is the finder, timing and alignment patterns of a QR Code symbol of
// 21 to 57 modules a side (versions 1 to 10), and one module of quiet zone around
// it (ISO/IEC 18004, 6.3).
func KnownQR(side int) []Known {
	known := quietZone(side, side)
	for row := -1; row < 8; row++ {
		for column := -1; column < 8; column++ {
			dark := finderDark(column, row)
			known = appendInside(known, side, Known{Cell{column, row}, dark})
			known = appendInside(known, side, Known{Cell{side - 1 - column, row}, dark})
			known = appendInside(known, side, Known{Cell{column, side - 1 - row}, dark})
		}
	}
	for i := 8; i < side-8; i++ {
		known = append(known, Known{Cell{i, 6}, i%2 == 0}, Known{Cell{6, i}, i%2 == 0})
	}
	for _, center := range alignmentCenters(side) {
		known = append(known, alignmentPattern(center)...)
	}
	return known
}

// appendInside keeps what is not in the quiet zone, which is known already.
func appendInside(known []Known, side int, k Known) []Known {
	if k.Column < 0 || k.Row < 0 || k.Column >= side || k.Row >= side {
		return known
	}
	return append(known, k)
}

// finderDark is the pattern of three nested squares with its separator, its dark
// part from 0 to 6 both ways.
func finderDark(column, row int) bool {
	distance := max(abs(column-3), abs(row-3))
	return distance <= 1 || distance == 3
}

// AlignmentPattern is the alignment pattern nearest to the lower right corner of a
// QR Code symbol of that many modules a side; the smallest has none.
func AlignmentPattern(side int) []Known {
	if qrVersion(side) < 2 {
		return nil
	}
	return alignmentPattern(Cell{side - 7, side - 7})
}

// alignmentPattern is the five by five modules around a center.
func alignmentPattern(center Cell) []Known {
	var known []Known
	for dy := -2; dy <= 2; dy++ {
		for dx := -2; dx <= 2; dx++ {
			dark := max(abs(dx), abs(dy)) != 1
			known = append(known, Known{Cell{center.Column + dx, center.Row + dy}, dark})
		}
	}
	return known
}

// alignmentCenters gives the alignment patterns that do not lie on a timing pattern.
func alignmentCenters(side int) []Cell {
	last := side - 7
	switch version := qrVersion(side); {
	case version == 1:
		return nil
	case version < 7:
		return []Cell{{last, last}}
	default:
		middle := (6 + last) / 2
		return []Cell{{last, last}, {middle, last}, {last, middle}, {middle, middle}}
	}
}

// quietZone is the light frame of one module around a symbol.
func quietZone(columns, rows int) []Known {
	var known []Known
	for column := -1; column <= columns; column++ {
		known = append(known, Known{Cell{column, -1}, false}, Known{Cell{column, rows}, false})
	}
	for row := range rows {
		known = append(known, Known{Cell{-1, row}, false}, Known{Cell{columns, row}, false})
	}
	return known
}

func abs(n int) int { return max(n, -n) }
