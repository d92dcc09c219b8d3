package picture

// Closed also marks the light gaps of at most gap pixels between dark ones, along
// rows and along columns: what belongs together, as the parts of a symbol do,
// becomes one region. The frame of the picture does not count as dark.
func (b *Bits) Closed(gap, workers int) *Bits {
	closed := NewBits(b.Width, b.Height)
	Strips(b.Height, workers, func(from, to int) {
		for y := from; y < to; y++ {
			row := closed.Row(y)
			copy(row, b.Row(y))
			fillRow(row, gap)
		}
	})
	Strips(b.Width, workers, func(from, to int) { b.fillColumns(closed, from, to, gap) })
	return closed
}

// fillRow marks the short gaps of a row.
func fillRow(row []uint8, gap int) {
	last := -1 // the last dark pixel
	for x, v := range row {
		if v == 0 {
			continue
		}
		if last >= 0 && x-last <= gap+1 {
			for i := last + 1; i < x; i++ {
				row[i] = 1
			}
		}
		last = x
	}
}

// fillColumns marks the short gaps of some columns, going down row by row.
func (b *Bits) fillColumns(out *Bits, from, to, gap int) {
	last := make([]int, to-from)
	for i := range last {
		last[i] = -gap - 2
	}
	for y := range b.Height {
		for i, v := range b.Row(y)[from:to] {
			if v == 0 {
				continue
			}
			if y-last[i] <= gap+1 {
				for fill := last[i] + 1; fill < y; fill++ {
					out.marks[fill*b.Width+from+i] = 1
				}
			}
			last[i] = y
		}
	}
}
