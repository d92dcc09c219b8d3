package picture

import "math"

// Rectangle is the smallest rectangle, at any angle, around a convex clockwise
// outline; one of its sides lies along a side of the outline (H. Freeman,
// R. Shapira, 1975). An outline of fewer than three corners gives a flat one.
func Rectangle(outline []Point) Quad {
	var best Quad
	least := math.Inf(1)
	for i, p := range outline {
		side := outline[(i+1)%len(outline)].Minus(p)
		if side.Length() == 0 {
			continue
		}
		quad, area := rectangleAlong(outline, side.Times(1/side.Length()))
		if area < least {
			best, least = quad, area
		}
	}
	return best
}

// rectangleAlong is the rectangle around points whose upper side runs along a
// direction of length 1.
func rectangleAlong(points []Point, along Point) (Quad, float64) {
	down := Point{-along.Y, along.X}
	left, right, top, bottom := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, p := range points {
		left, right = min(left, p.Dot(along)), max(right, p.Dot(along))
		top, bottom = min(top, p.Dot(down)), max(bottom, p.Dot(down))
	}
	at := func(x, y float64) Point { return along.Times(x).Plus(down.Times(y)) }
	return Quad{at(left, top), at(right, top), at(right, bottom), at(left, bottom)}, (right - left) * (bottom - top)
}
