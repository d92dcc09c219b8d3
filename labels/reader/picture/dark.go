package picture

// blockSize is the side, in pixels, of the blocks that the light is measured in;
// a window of five blocks each way then covers the widest solid part (three
// modules) of symbols with modules of up to about ten pixels.
const (
	blockSize   = 8
	blockReach  = 2
	leastDetail = 24 // of 255: a window with less between black and white is plain
)

// Dark marks the pixels that are darker than halfway between the darkest and the
// brightest of their surroundings; half is the same plane at half the size, whose
// smoothing keeps single noisy pixels from setting the scale.
func (g *Grey) Dark(half *Grey, workers int) *Bits {
	levels := measureBlocks(half, g.Width, g.Height, workers)
	bits := NewBits(g.Width, g.Height)
	Strips(levels.rows, workers, func(from, to int) {
		threshold := make([]int, levels.columns)
		for row := from; row < to; row++ {
			levels.thresholds(row, threshold)
			for y := row * blockSize; y < min((row+1)*blockSize, g.Height); y++ {
				markDark(g.Row(y), threshold, bits.Row(y))
			}
		}
	})
	return bits
}

// markDark compares a row with the thresholds of its blocks.
func markDark(row []uint8, threshold []int, out []uint8) {
	for block, t := range threshold {
		from, to := block*blockSize, min((block+1)*blockSize, len(row))
		line, marks := row[from:to], out[from:to]
		for i, v := range line {
			if int(v) < t {
				marks[i] = 1
			}
		}
	}
}

// blockLevels holds the darkest and brightest value of each block.
type blockLevels struct {
	columns, rows     int
	darkest, lightest []uint8
}

func measureBlocks(half *Grey, width, height, workers int) *blockLevels {
	l := &blockLevels{columns: (width + blockSize - 1) / blockSize, rows: (height + blockSize - 1) / blockSize}
	l.darkest = make([]uint8, l.columns*l.rows)
	l.lightest = make([]uint8, l.columns*l.rows)
	Strips(l.rows, workers, func(from, to int) {
		for row := from; row < to; row++ {
			for column := range l.columns {
				i := row*l.columns + column
				l.darkest[i], l.lightest[i] = half.extremes(column*blockSize/2, row*blockSize/2, blockSize/2)
			}
		}
	})
	return l
}

// extremes is the darkest and brightest value of a square; an empty one, beyond
// the edge of the picture, gives values that never win a comparison.
func (g *Grey) extremes(left, top, side int) (darkest, lightest uint8) {
	darkest, lightest = 255, 0
	for y := top; y < min(top+side, g.Height); y++ {
		row := g.Row(y)
		for _, v := range row[min(left, len(row)):min(left+side, len(row))] {
			darkest, lightest = min(darkest, v), max(lightest, v)
		}
	}
	return darkest, lightest
}

// thresholds gives, for each block of a row, the value below which a pixel is
// dark; 0, below which there is nothing, where the surroundings are plain.
func (l *blockLevels) thresholds(row int, out []int) {
	for column := range out {
		darkest, lightest := uint8(255), uint8(0)
		for y := max(row-blockReach, 0); y <= min(row+blockReach, l.rows-1); y++ {
			for x := max(column-blockReach, 0); x <= min(column+blockReach, l.columns-1); x++ {
				i := y*l.columns + x
				darkest, lightest = min(darkest, l.darkest[i]), max(lightest, l.lightest[i])
			}
		}
		out[column] = 0
		if int(lightest)-int(darkest) >= leastDetail {
			out[column] = (int(lightest) + int(darkest) + 1) / 2
		}
	}
}
