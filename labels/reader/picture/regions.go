package picture

// Region is a dark area that hangs together by the sides of its pixels.
type Region struct {
	Runs          []Run
	Pixels        int // area
	Width, Height int // of the upright box around it
}

// Regions finds the regions whose upright box has a longer side of least to most
// pixels, in the order of their first row.
func (r *Runs) Regions(least, most int) []Region {
	parent := r.join()
	boxes := r.boxes(parent)
	index := make([]int32, len(r.all))
	var regions []Region
	for i := range r.all {
		index[i] = -1
		if side := max(boxes[i].width(), boxes[i].height()); int(parent[i]) == i && side >= least && side <= most {
			index[i] = int32(len(regions))
			regions = append(regions, Region{
				Runs:   make([]Run, 0, boxes[i].runs),
				Pixels: boxes[i].pixels, Width: boxes[i].width(), Height: boxes[i].height(),
			})
		}
	}
	for i, run := range r.all {
		if k := index[parent[i]]; k >= 0 {
			regions[k].Runs = append(regions[k].Runs, run)
		}
	}
	return regions
}

// box is what is known of a region before its runs are gathered.
type box struct {
	left, right, top, bottom int32
	pixels, runs             int
}

func (b box) width() int  { return int(b.right - b.left) }
func (b box) height() int { return int(b.bottom - b.top) }

// boxes sums up the regions, each at the index of its first run.
func (r *Runs) boxes(parent []int32) []box {
	boxes := make([]box, len(r.all))
	for i, run := range r.all {
		b := &boxes[parent[i]]
		if b.runs == 0 {
			*b = box{left: run.From, right: run.To, top: run.Y}
		}
		b.left, b.right = min(b.left, run.From), max(b.right, run.To)
		b.bottom = run.Y + 1
		b.pixels += run.Length()
		b.runs++
	}
	return boxes
}

// join gives, for each run, the first run of its region.
func (r *Runs) join() []int32 {
	parent := make([]int32, len(r.all))
	for i := range parent {
		parent[i] = int32(i)
	}
	for y := 1; y < r.Height(); y++ {
		r.joinRow(y, parent)
	}
	for i := range parent {
		parent[i] = parent[parent[i]] // parents come first and are settled
	}
	return parent
}

// joinRow joins the runs of a row with those above that they touch.
func (r *Runs) joinRow(y int, parent []int32) {
	above, end := r.start[y-1], r.start[y]
	for i := r.start[y]; i < r.start[y+1]; i++ {
		run := r.all[i]
		for above < end && r.all[above].To <= run.From {
			above++
		}
		for k := above; k < end && r.all[k].From < run.To; k++ {
			a, b := rootOf(parent, int32(i)), rootOf(parent, int32(k))
			parent[max(a, b)] = min(a, b)
		}
	}
}

// rootOf follows a run to the first of its region, shortening the way as it goes.
func rootOf(parent []int32, i int32) int32 {
	for parent[i] != i {
		parent[i] = parent[parent[i]]
		i = parent[i]
	}
	return i
}

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

// Strips shares rows 0 to height among workers, each a strip of neighbouring
// rows, and waits for all. Fewer than one worker counts as one.
func Strips(height, workers int, work func(from, to int)) {
	workers = min(max(workers, 1), max(height, 1))
	var group Crew
	for i := range workers {
		from, to := height*i/workers, height*(i+1)/workers
		group.Go(func() { work(from, to) })
	}
	group.Wait()
}

// Bits marks the dark pixels of a picture: 1 dark, 0 light, row by row.
type Bits struct {
	Width, Height int
	marks         []uint8
}

// NewBits makes an all-light plane of the given size in pixels.
func NewBits(width, height int) *Bits {
	return &Bits{Width: width, Height: height, marks: make([]uint8, width*height)}
}

// Row is the marks of row y.
func (b *Bits) Row(y int) []uint8 { return b.marks[y*b.Width : (y+1)*b.Width] }

// Dark tells whether the pixel at a column and row is dark; outside, it is light.
func (b *Bits) Dark(x, y int) bool {
	return x >= 0 && y >= 0 && x < b.Width && y < b.Height && b.marks[y*b.Width+x] != 0
}

// DarkAt tells whether the pixel under a point is dark.
func (b *Bits) DarkAt(p Point) bool {
	return p.X >= 0 && p.Y >= 0 && b.Dark(int(p.X), int(p.Y))
}
