package picture

// Run is a stretch of dark pixels in one row: columns From up to, not including, To.
type Run struct{ Y, From, To int32 }

// Length is the number of pixels.
func (r Run) Length() int { return int(r.To - r.From) }

// Runs holds all dark runs of a picture, row after row, from left to right.
type Runs struct {
	all   []Run
	start []int // of each row in all, and one past the last
}

// Runs finds the dark runs.
func (b *Bits) Runs(workers int) *Runs {
	rows := make([][]Run, b.Height)
	Strips(b.Height, workers, func(from, to int) {
		for y := from; y < to; y++ {
			rows[y] = rowRuns(b.Row(y), int32(y))
		}
	})
	runs := &Runs{start: make([]int, b.Height+1)}
	for y, row := range rows {
		runs.start[y+1] = runs.start[y] + len(row)
	}
	runs.all = make([]Run, 0, runs.start[b.Height])
	for _, row := range rows {
		runs.all = append(runs.all, row...)
	}
	return runs
}

func rowRuns(row []uint8, y int32) []Run {
	var runs []Run
	for x := 0; x < len(row); x++ {
		if row[x] == 0 {
			continue
		}
		from := x
		for x < len(row) && row[x] != 0 {
			x++
		}
		runs = append(runs, Run{y, int32(from), int32(x)})
	}
	return runs
}

// Height is the number of rows.
func (r *Runs) Height() int { return len(r.start) - 1 }

// Row is the runs of row y.
func (r *Runs) Row(y int) []Run { return r.all[r.start[y]:r.start[y+1]] }
