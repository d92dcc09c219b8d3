package png

import "golang.org/x/image/font/sfnt"

// glyph is a letter's dots: rows from the top, relative to the pen on the baseline.
type glyph struct {
	left, top     int // of the first dot; top counts rows upwards from the baseline
	width, height int
	black         []bool
}

// newGlyph makes dots of an outline: those whose middles it covers, and, in strokes
// thinner than a dot, one dot across, as rasterizers of TrueType outlines do.
func newGlyph(outline sfnt.Segments, to size) *glyph {
	list := contours(outline, to)
	g := bounds(list)
	var upright, sideways []*profile
	for _, c := range list {
		upright = append(upright, trace(c)...)
		sideways = append(sideways, trace(swapped(c))...)
	}
	sweep(upright, func(row int, p pair) { g.fill(row, p) }, func(row int, p pair) { g.bridge(row, p, false) })
	sweep(sideways, func(row int, p pair) { g.edges(row, p) }, func(row int, p pair) { g.bridge(row, p, true) })
	return g
}

// bounds is an empty glyph that holds all dots whose middles are within the points.
func bounds(list []contour) *glyph {
	if len(list) == 0 {
		return &glyph{}
	}
	low, high := list[0].start, list[0].start
	extend := func(p point) {
		low = point{min(low.x, p.x), min(low.y, p.y)}
		high = point{max(high.x, p.x), max(high.y, p.y)}
	}
	for _, c := range list {
		extend(c.start)
		for _, p := range c.pieces {
			if p.curve {
				extend(p.control)
			}
			extend(p.to)
		}
	}
	g := &glyph{left: ceil(low.x) / dot, top: floor(high.y) / dot}
	g.width, g.height = max(floor(high.x)/dot-g.left+1, 1), max(g.top-ceil(low.y)/dot+1, 1)
	g.black = make([]bool, g.width*g.height)
	return g
}

// swapped is a contour with its two directions exchanged.
func swapped(c contour) contour {
	swap := func(p point) point { return point{p.y, p.x} }
	s := contour{start: swap(c.start)}
	for _, p := range c.pieces {
		s.pieces = append(s.pieces, piece{p.curve, swap(p.control), swap(p.to)})
	}
	return s
}

// index is the place of a dot, or -1 outside the glyph.
func (g *glyph) index(column, row int) int {
	x, y := column-g.left, g.top-row
	if x < 0 || y < 0 || x >= g.width || y >= g.height {
		return -1
	}
	return y*g.width + x
}

// set blackens a dot.
func (g *glyph) set(column, row int) {
	if i := g.index(column, row); i >= 0 {
		g.black[i] = true
	}
}

// fill blackens the dots of a row whose middles are between two bounds, or on them.
func (g *glyph) fill(row int, p pair) {
	for column := ceil(p.x1) / dot; column <= floor(p.x2)/dot; column++ {
		g.set(column, row)
	}
}

// edges blackens the dots of a column whose middles are exactly on a bound: level
// edges, which a sweep by rows can miss.
func (g *glyph) edges(column int, p pair) {
	for _, y := range []int{p.x1, p.x2} {
		if frac(y) == 0 {
			g.set(column, y/dot)
		}
	}
}

// bridge blackens one dot where a stroke passes between two middles, unless one of
// the two is black already or the stroke ends there.
func (g *glyph) bridge(line int, p pair, sideways bool) {
	place := func(along int) int {
		if sideways {
			return g.index(line, along)
		}
		return g.index(along, line)
	}
	above, below := ceil(p.x1)/dot, floor(p.x2)/dot
	if above <= below {
		if i := place(above); i >= 0 {
			g.black[i] = true
		}
		return
	}
	if above != below+1 || p.stub(line) {
		return
	}
	chosen, other := place(below), place(above)
	if chosen < 0 {
		chosen, other = other, chosen
	}
	if chosen >= 0 && !(other >= 0 && g.black[other]) {
		g.black[chosen] = true
	}
}
