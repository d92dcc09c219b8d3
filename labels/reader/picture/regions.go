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
