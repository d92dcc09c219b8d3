package png

import (
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// dot is the side of a printer's dot in the units that outlines are drawn in: 64ths,
// as rasterizers of TrueType outlines use.
const dot = 64

// point is a place in 64ths of a dot, Y upwards. The middles of dots lie at multiples
// of a dot: points are shifted by half a dot to the left and down.
type point struct{ x, y int }

// piece is a part of a contour that starts where the last one ended: a line, or a
// quadratic curve with a control point.
type piece struct {
	curve       bool
	control, to point
}

// contour is a closed outline.
type contour struct {
	start  point
	pieces []piece
}

// size is how large and which way up an outline is drawn.
type size struct {
	em, unitsPerEm int
	turned         bool // upside down
}

// place scales a point of an outline.
func (s size) place(p fixed.Point26_6) point {
	x, y := scaled(int(p.X), s.em, s.unitsPerEm), scaled(-int(p.Y), s.em, s.unitsPerEm)
	if s.turned {
		x, y = -x, -y
	}
	return point{x - dot/2, y - dot/2}
}

// contours scales an outline in font units to an em of whole dots.
func contours(outline sfnt.Segments, to size) []contour {
	scale := to.place
	var list []contour
	for i, s := range outline {
		switch s.Op {
		case sfnt.SegmentOpMoveTo:
			list = append(list, contour{start: scale(s.Args[0])})
		case sfnt.SegmentOpLineTo:
			c := &list[len(list)-1]
			c.pieces = append(c.pieces, piece{to: scale(s.Args[0])})
		case sfnt.SegmentOpQuadTo:
			c := &list[len(list)-1]
			to := scale(s.Args[1])
			if i+1 < len(outline) && implied(s, outline[i+1]) {
				to = middle(scale(s.Args[0]), scale(outline[i+1].Args[0]))
			}
			c.pieces = append(c.pieces, piece{curve: true, control: scale(s.Args[0]), to: to})
		}
	}
	return list
}

// scaled turns 64ths of a font unit into 64ths of a dot, rounded to the nearest.
func scaled(units, em, unitsPerEm int) int {
	if units < 0 {
		return -scaled(-units, em, unitsPerEm)
	}
	return (units*em + unitsPerEm/2) / unitsPerEm
}

// implied tells whether a curve ends on a point that the font leaves out: the middle
// between its own control point and the next curve's. Such points are found again
// after scaling, as rasterizers do.
func implied(s, next sfnt.Segment) bool {
	if next.Op != sfnt.SegmentOpQuadTo {
		return false
	}
	a, b, on := s.Args[0], next.Args[0], s.Args[1]
	return 2*on.X == a.X+b.X && 2*on.Y == a.Y+b.Y
}

// middle is the middle of two points.
func middle(a, b point) point { return point{(a.x + b.x) / 2, (a.y + b.y) / 2} }

// floor is the multiple of a dot at or below a length.
func floor(l int) int { return l &^ (dot - 1) }

// ceil is the multiple of a dot at or above a length.
func ceil(l int) int { return floor(l + dot - 1) }

// frac is what is above the multiple of a dot at or below a length.
func frac(l int) int { return l & (dot - 1) }

// share is a*b/c, rounded to the nearest; c is above zero.
func share(a, b, c int) int {
	product := a * b
	if product < 0 {
		return -((-product + c/2) / c)
	}
	return (product + c/2) / c
}
