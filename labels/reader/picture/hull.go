package picture

import (
	"cmp"
	"math"
	"slices"
)

// Hull is the convex outline of a region, clockwise as seen on a screen.
func (r Region) Hull() []Point {
	var points []Point
	for i := 0; i < len(r.Runs); i++ {
		first := r.Runs[i]
		for i+1 < len(r.Runs) && r.Runs[i+1].Y == first.Y {
			i++
		}
		top, bottom := float64(first.Y), float64(first.Y+1)
		from, to := float64(first.From), float64(r.Runs[i].To)
		points = append(points, Point{from, top}, Point{to, top}, Point{from, bottom}, Point{to, bottom})
	}
	return convexHull(points)
}

// convexHull is A. M. Andrew's monotone chain (1979).
func convexHull(points []Point) []Point {
	slices.SortFunc(points, func(a, b Point) int {
		return cmp.Or(cmp.Compare(a.X, b.X), cmp.Compare(a.Y, b.Y))
	})
	upper := halfHull(points)
	slices.Reverse(points)
	lower := halfHull(points)
	if len(upper) < 2 {
		return upper
	}
	return append(upper[:len(upper)-1], lower[:len(lower)-1]...)
}

// halfHull walks along sorted points, keeping to clockwise turns.
func halfHull(points []Point) []Point {
	var hull []Point
	for _, p := range points {
		for len(hull) >= 2 && hull[len(hull)-1].Minus(hull[len(hull)-2]).Cross(p.Minus(hull[len(hull)-1])) <= 0 {
			hull = hull[:len(hull)-1]
		}
		hull = append(hull, p)
	}
	return hull
}

// Simplified is a closed outline without the corners that lie within tolerance of
// the line between their neighbours that stay (Douglas and Peucker, 1973).
func Simplified(outline []Point, tolerance float64) []Point {
	if len(outline) < 4 {
		return slices.Clone(outline)
	}
	start := farthest(outline, outline[0])
	turned := append(slices.Clone(outline[start:]), outline[:start]...)
	opposite := farthest(turned, turned[0])
	first := keepCorners(turned[:opposite+1], tolerance)
	second := keepCorners(append(slices.Clone(turned[opposite:]), turned[0]), tolerance)
	return append(first[:len(first)-1], second[:len(second)-1]...)
}

func farthest(points []Point, from Point) int {
	best, reach := 0, -1.0
	for i, p := range points {
		if d := p.Minus(from).Length(); d > reach {
			best, reach = i, d
		}
	}
	return best
}

// keepCorners thins an open line, keeping both of its ends.
func keepCorners(line []Point, tolerance float64) []Point {
	first, last := line[0], line[len(line)-1]
	if len(line) < 3 {
		return []Point{first, last}
	}
	along := last.Minus(first)
	best, reach := 0, tolerance
	for i, p := range line[1 : len(line)-1] {
		if d := math.Abs(along.Cross(p.Minus(first))) / along.Length(); d > reach {
			best, reach = i+1, d
		}
	}
	if best == 0 {
		return []Point{first, last}
	}
	head := keepCorners(line[:best+1], tolerance)
	return append(head[:len(head)-1], keepCorners(line[best:], tolerance)...)
}

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
