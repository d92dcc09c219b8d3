package grade

import (
	"math"

	"steeltally/labels/reader/picture"
)

// lens is the map from modules to pixels.
func (p Place) lens() picture.Homography {
	return picture.OntoQuad(float64(p.Columns), float64(p.Rows), p.Outline)
}

// sides is the mean width and height of a module in pixels.
func (p Place) sides() (width, height float64) {
	q := p.Outline
	width = (q[1].Minus(q[0]).Length() + q[2].Minus(q[3]).Length()) / 2 / float64(p.Columns)
	height = (q[3].Minus(q[0]).Length() + q[2].Minus(q[1]).Length()) / 2 / float64(p.Rows)
	return width, height
}

// module is the shorter side of a module in pixels.
func (p Place) module() float64 { return min(p.sides()) }

// axial is the difference of a module's width and height as a part of their mean.
func (p Place) axial() float64 {
	width, height := p.sides()
	return math.Abs(width-height) / ((width + height) / 2)
}
