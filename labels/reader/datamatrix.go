package reader

import (
	"cmp"
	"math"
	"slices"

	"steeltally/labels/reader/picture"
	"steeltally/labels/symbol"
)

// The size of the dark regions that may be the solid border of a Data Matrix
// symbol, and what hangs on to it, in pixels.
const (
	leastBorderSide = 16
	mostBorderSide  = 800
	leastBorderFill = 0.15 // of the area of its convex outline
)

const (
	outlineSlack  = 0.03 // of the size: how straight a leg must be
	leastLegShare = 0.45 // of the size: how long a leg must be
	leastLegDark  = 0.85 // of the points along a leg
	mostLegSlant  = 0.6  // cosine of the angle between the legs
	legInset      = 0.02 // of the other leg: how far inside the outline a leg is checked
)

// borderL is the solid border: its corner and the ends of its two legs.
type borderL struct{ top, corner, right picture.Point }

// borders finds the pairs of dark, straight, adjacent edges of a region.
func borders(region picture.Region, bits *picture.Bits) []borderL {
	if 2*min(region.Width, region.Height) < leastBorderSide {
		return nil
	}
	hull := region.Hull()
	size := diameter(hull)
	if float64(region.Pixels) < leastBorderFill*area(hull) {
		return nil
	}
	outline := picture.Simplified(hull, max(1, outlineSlack*size))
	var found []borderL
	for i, p := range outline {
		l := borderL{
			right:  outline[(i+len(outline)-1)%len(outline)],
			corner: p,
			top:    outline[(i+1)%len(outline)],
		}
		if l.plausible(size) && l.solid(bits) {
			found = append(found, l)
		}
	}
	return found
}

// plausible tells whether the legs are long enough and far enough from in line.
func (l borderL) plausible(size float64) bool {
	up, along := l.top.Minus(l.corner), l.right.Minus(l.corner)
	long, short := max(up.Length(), along.Length()), min(up.Length(), along.Length())
	if long < leastLegShare*size || short < leastLegShare*size/3 {
		return false
	}
	return math.Abs(up.Dot(along)) < mostLegSlant*long*short
}

// solid tells whether the picture is dark just inside both legs.
func (l borderL) solid(bits *picture.Bits) bool {
	up, along := l.top.Minus(l.corner), l.right.Minus(l.corner)
	inset := legInset * max(up.Length(), along.Length())
	upward, rightward := up.Times(inset/up.Length()), along.Times(inset/along.Length())
	inner := l.corner.Plus(upward).Plus(rightward)
	return darkShare(bits, inner, l.top.Plus(rightward).Minus(upward)) >= leastLegDark &&
		darkShare(bits, inner, l.right.Plus(upward).Minus(rightward)) >= leastLegDark
}

// darkShare is the part of the points on a line that is dark.
func darkShare(bits *picture.Bits, from, to picture.Point) float64 {
	const points = 40
	dark := 0
	for i := range points {
		if bits.DarkAt(from.Plus(to.Minus(from).Times(float64(i) / (points - 1)))) {
			dark++
		}
	}
	return float64(dark) / points
}

// mostSizes is how many sizes of Data Matrix are decoded at one place.
const mostSizes = 3

// borderCandidates gives the symbols that a region may be the border of.
func borderCandidates(r picture.Region, v view) []candidate {
	var found []candidate
	for _, l := range borders(r, v.bits) {
		found = append(found, l.candidates(v)...)
	}
	return found
}

// candidates gives the symbols whose solid border this may be, likeliest first.
func (l borderL) candidates(v view) []candidate {
	fourth := l.top.Plus(l.right).Minus(l.corner)
	outline := picture.Quad{l.top, fourth, l.right, l.corner}
	ratio := l.right.Minus(l.corner).Length() / l.top.Minus(l.corner).Length()
	var found []candidate
	for _, size := range v.known.dataMatrix {
		if r := ratio * float64(size.Rows) / float64(size.Columns); r < 0.7 || r > 1.4 {
			continue
		}
		one := candidate{grid: grid{outline, size.Columns, size.Rows}, symbology: symbol.DataMatrix, known: size.known}
		if one.promising(v.grey, matrixShare) {
			found = append(found, one)
		}
	}
	return likeliest(found)
}

// likeliest keeps the few candidates whose known modules fit best, best first.
func likeliest(found []candidate) []candidate {
	slices.SortStableFunc(found, func(a, b candidate) int { return cmp.Compare(b.share, a.share) })
	return found[:min(len(found), mostSizes)]
}

// diameter is the greatest distance between corners of an outline.
func diameter(outline []picture.Point) float64 {
	most := 0.0
	for i, p := range outline {
		for _, q := range outline[:i] {
			most = max(most, p.Minus(q).Length())
		}
	}
	return most
}

// area is that of a clockwise outline.
func area(outline []picture.Point) float64 {
	twice := 0.0
	for i, p := range outline {
		twice += p.Cross(outline[(i+1)%len(outline)])
	}
	return twice / 2
}
