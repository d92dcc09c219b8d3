package png

import (
	"math"
	"sort"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// edge is a straight piece of an outline, from a lower to a higher Y, in dots; up tells
// that the outline runs the other way.
type edge struct {
	x1, y1, x2, y2 float64
	up             bool
}

// curveSteps is how many straight pieces stand for a curve: at 16, the error is below
// a hundredth of a dot for the letters of a tag.
const curveSteps = 16

// edges cuts an outline into straight pieces.
func edges(outline sfnt.Segments) []edge {
	var list []edge
	var start, pen point
	line := func(to point) {
		if e, ok := newEdge(pen, to); ok {
			list = append(list, e)
		}
		pen = to
	}
	for _, s := range outline {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			line(start)
			start = toPoint(s.Args[0])
			pen = start
		case sfnt.SegmentOpLineTo:
			line(toPoint(s.Args[0]))
		case sfnt.SegmentOpQuadTo:
			from, control, to := pen, toPoint(s.Args[0]), toPoint(s.Args[1])
			for i := 1; i <= curveSteps; i++ {
				line(quadratic(from, control, to, float64(i)/curveSteps))
			}
		}
	}
	line(start)
	return list
}

// point is a place in dots.
type point struct{ x, y float64 }

// toPoint turns 64ths of a dot into dots.
func toPoint(p fixed.Point26_6) point { return point{float64(p.X) / 64, float64(p.Y) / 64} }

// quadratic is a point of a quadratic Bézier curve.
func quadratic(a, b, c point, t float64) point {
	u := 1 - t
	return point{u*u*a.x + 2*u*t*b.x + t*t*c.x, u*u*a.y + 2*u*t*b.y + t*t*c.y}
}

// newEdge is the edge between two points; a level one bounds no dots.
func newEdge(from, to point) (edge, bool) {
	if from.y == to.y {
		return edge{}, false
	}
	if from.y < to.y {
		return edge{from.x, from.y, to.x, to.y, false}, true
	}
	return edge{to.x, to.y, from.x, from.y, true}, true
}

// span is a run of dots in a row, first to last.
type span struct{ row, first, last int }

// spans are the dots whose middle lies inside the outline, by the nonzero rule.
func spans(list []edge) []span {
	if len(list) == 0 {
		return nil
	}
	top, bottom := math.Inf(1), math.Inf(-1)
	for _, e := range list {
		top, bottom = math.Min(top, e.y1), math.Max(bottom, e.y2)
	}
	var found []span
	for row := int(math.Floor(top)); row <= int(math.Ceil(bottom)); row++ {
		found = append(found, rowSpans(list, row)...)
	}
	return found
}

// crossing is where an edge crosses the middle of a row.
type crossing struct {
	x  float64
	up bool
}

// rowSpans are the spans of one row.
func rowSpans(list []edge, row int) []span {
	middle := float64(row) + 0.5
	var crossings []crossing
	for _, e := range list {
		if e.y1 <= middle && middle < e.y2 {
			crossings = append(crossings, crossing{e.x1 + (e.x2-e.x1)*(middle-e.y1)/(e.y2-e.y1), e.up})
		}
	}
	sort.Slice(crossings, func(i, j int) bool { return crossings[i].x < crossings[j].x })
	var found []span
	winding, from := 0, 0.0
	for _, c := range crossings {
		if winding == 0 {
			from = c.x
		}
		if c.up {
			winding--
		} else {
			winding++
		}
		if winding == 0 {
			first, last := int(math.Ceil(from-0.5)), int(math.Floor(c.x-0.5))
			if first <= last {
				found = append(found, span{row, first, last})
			}
		}
	}
	return found
}
