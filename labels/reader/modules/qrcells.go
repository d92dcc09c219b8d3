package modules

// qrCells gives the eight modules of each codeword of a QR Code symbol, most
// significant first: pairs of columns from the right, up and down in turn, past
// everything that is not data (ISO/IEC 18004, 7.7.3).
func qrCells(side int) [][]Cell {
	taken := qrTaken(side)
	var free []Cell
	for right, up := side-1, true; right > 0; right, up = right-2, !up {
		if right == timingLine {
			right--
		}
		for i := range side {
			row := i
			if up {
				row = side - 1 - i
			}
			for _, cell := range [2]Cell{{right, row}, {right - 1, row}} {
				if !taken[cell] {
					free = append(free, cell)
				}
			}
		}
	}
	words := make([][]Cell, 0, len(free)/8)
	for ; len(free) >= 8; free = free[8:] {
		words = append(words, free[:8])
	}
	return words
}

// timingLine is the row and the column of the timing patterns.
const timingLine = 6

// qrTaken marks the modules that hold no data: the known ones, and those of the
// format and, from version 7 on, of the version.
func qrTaken(side int) map[Cell]bool {
	taken := map[Cell]bool{}
	for _, k := range KnownQR(side) {
		taken[k.Cell] = true
	}
	for i := range 9 {
		taken[Cell{i, 8}], taken[Cell{8, i}] = true, true
	}
	for i := side - 8; i < side; i++ {
		taken[Cell{i, 8}], taken[Cell{8, i}] = true, true
	}
	if qrVersion(side) >= 7 {
		for i := range 6 {
			for j := side - 11; j < side-8; j++ {
				taken[Cell{i, j}], taken[Cell{j, i}] = true, true
			}
		}
		takeOnTiming(taken, side)
	}
	return taken
}

// takeOnTiming marks the alignment patterns in the middle of the timing patterns.
func takeOnTiming(taken map[Cell]bool, side int) {
	middle := (timingLine + side - 7) / 2
	for across := -2; across <= 2; across++ {
		for along := -2; along <= 2; along++ {
			taken[Cell{middle + along, timingLine + across}] = true
			taken[Cell{timingLine + across, middle + along}] = true
		}
	}
}
