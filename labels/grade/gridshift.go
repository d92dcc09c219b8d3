package grade

import (
	"math"

	"steeltally/labels/reader/modules"
	"steeltally/labels/reader/picture"
)

// gridShift is the greatest distance, in modules, of a crossing of the grid from
// where it would be if the grid were even, as the edges between dark and light
// modules show it. That ink spreads moves all edges outwards and is not counted.
// More than half a module can't be told from less: the modules are then mistaken for
// their neighbours, and the symbol fails by its error correction.
func (s surface) gridShift(p Place, bits *modules.Matrix, threshold float64) float64 {
	across := s.edges(direction{p.lens(), bits, false}, threshold)
	down := s.edges(direction{p.lens(), bits, true}, threshold)
	most := 0.0
	for row := 0; row <= p.Rows; row++ {
		for column := 0; column <= p.Columns; column++ {
			most = max(most, math.Hypot(across.near(column, row), down.near(row, column)))
		}
	}
	return most
}

// direction is one of the two ways over a symbol: across, from column to column, or
// down, from row to row. Its lines lie between columns, or rows; its lanes are the
// rows, or columns, that the way leads through.
type direction struct {
	lens picture.Homography
	bits *modules.Matrix
	down bool
}

func (d direction) lines() int {
	if d.down {
		return d.bits.Rows
	}
	return d.bits.Columns
}

func (d direction) lanes() int {
	if d.down {
		return d.bits.Columns
	}
	return d.bits.Rows
}

// at is the point in the middle of a lane, so many modules along it.
func (d direction) at(along float64, lane int) picture.Point {
	if d.down {
		return d.lens.At(float64(lane)+0.5, along)
	}
	return d.lens.At(along, float64(lane)+0.5)
}

// dark tells whether the module behind a line is dark; beyond the symbol, none is.
func (d direction) dark(line, lane int) bool {
	switch {
	case line < 0 || line >= d.lines():
		return false
	case d.down:
		return d.bits.Dark(modules.Cell{Column: lane, Row: line})
	default:
		return d.bits.Dark(modules.Cell{Column: line, Row: lane})
	}
}

// outward is the direction in which an edge moves when ink spreads.
func (d direction) outward(line, lane int) float64 {
	if d.dark(line-1, lane) {
		return 1
	}
	return -1
}

// edgeSet is how far the edges of a direction lie from their lines, in modules, by
// line and lane.
type edgeSet map[[2]int]float64

// near is the mean shift of the edges that end at a crossing; none counts as no shift.
func (e edgeSet) near(line, lane int) float64 {
	sum, count := 0.0, 0.0
	for _, at := range [2]int{lane - 1, lane} {
		if shift, found := e[[2]int{line, at}]; found {
			sum, count = sum+shift, count+1
		}
	}
	if count == 0 {
		return 0
	}
	return sum / count
}

// edges finds the edges of a direction and takes the spread of the ink out.
func (s surface) edges(d direction, threshold float64) edgeSet {
	found, spread := edgeSet{}, 0.0
	for line := 0; line <= d.lines(); line++ {
		for lane := range d.lanes() {
			if d.dark(line-1, lane) == d.dark(line, lane) {
				continue
			}
			shift, ok := s.crossing(d, line, lane, threshold)
			if ok {
				found[[2]int{line, lane}] = shift
				spread += d.outward(line, lane) * shift
			}
		}
	}
	for at, shift := range found {
		found[at] = shift - d.outward(at[0], at[1])*spread/float64(len(found))
	}
	return found
}

// An edge is looked for this far each way from its line, in modules, and this finely.
const (
	crossingReach = 0.8
	crossingSteps = 32
)

// crossing is where the reflectance along a lane passes the threshold nearest to a line.
func (s surface) crossing(d direction, line, lane int, threshold float64) (float64, bool) {
	best, found := math.Inf(1), false
	place := func(i int) float64 { return crossingReach * (2*float64(i)/crossingSteps - 1) }
	before := s.at(d.at(float64(line)+place(0), lane))
	for i := 1; i <= crossingSteps; i++ {
		after := s.at(d.at(float64(line)+place(i), lane))
		if (before < threshold) != (after < threshold) {
			at := place(i-1) + (place(i)-place(i-1))*(threshold-before)/(after-before)
			if math.Abs(at) < math.Abs(best) {
				best, found = at, true
			}
		}
		before = after
	}
	return best, found
}
