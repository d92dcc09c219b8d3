package drawing

import (
	"math"

	"steeltally/geometry"
)

// Strokes are the solid pieces of a line: itself, or its dashes.
func (l Line) Strokes() [][]geometry.Point {
	period := geometry.Millimetre(0)
	for _, d := range l.Dashes {
		period += d
	}
	if period <= 0 || len(l.Dashes) == 0 {
		return [][]geometry.Point{l.Points}
	}
	d := dasher{pattern: l.Dashes, left: l.Dashes[0], on: true}
	for i := 1; i < len(l.Points); i++ {
		d.run(l.Points[i-1], l.Points[i])
	}
	d.lift()
	return d.strokes
}

// dasher walks along a line with a pen that goes up and down.
type dasher struct {
	pattern []geometry.Millimetre
	at      int
	left    geometry.Millimetre // of the dash or gap
	on      bool
	stroke  []geometry.Point
	strokes [][]geometry.Point
}

func (d *dasher) run(from, to geometry.Point) {
	length := geometry.Millimetre(math.Hypot(float64(to.X-from.X), float64(to.Y-from.Y)))
	for length > 0 {
		if d.on && len(d.stroke) == 0 {
			d.stroke = []geometry.Point{from}
		}
		step := min(d.left, length)
		part := step / length
		from = geometry.Point{X: from.X + (to.X-from.X)*part, Y: from.Y + (to.Y-from.Y)*part}
		if d.on {
			d.stroke = append(d.stroke, from)
		}
		length -= step
		if d.left -= step; d.left <= 0 {
			d.next()
		}
	}
}

func (d *dasher) next() {
	d.lift()
	d.at = (d.at + 1) % len(d.pattern)
	d.left, d.on = d.pattern[d.at], !d.on
}

func (d *dasher) lift() {
	if len(d.stroke) > 1 {
		d.strokes = append(d.strokes, d.stroke)
	}
	d.stroke = nil
}
