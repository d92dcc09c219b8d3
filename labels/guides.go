package labels

import (
	"math"

	"steeltally/geometry"
	"steeltally/templates"
)

const (
	guideWidth geometry.Millimetre = 0.15 // of lines for scissors and folding
	dashLength geometry.Millimetre = 1.5
	crossArm   geometry.Millimetre = 1 // of the cross in the middle of a hole
)

// lines draws the guides for scissors and folding.
func (l *layout) lines(t *templates.Template) error {
	width := max(guideWidth.Dots(l.page.DPI), 1)
	for _, line := range t.Lines {
		x1, y1 := line.X1.Dots(l.page.DPI), line.Y1.Dots(l.page.DPI)
		r := geometry.Rect{X: x1, Y: y1, Width: max(line.X2.Dots(l.page.DPI)-x1, width), Height: max(line.Y2.Dots(l.page.DPI)-y1, width)}
		r.Width = min(r.Width, l.page.Width-r.X)
		r.Height = min(r.Height, l.page.Height-r.Y)
		if line.Dashed {
			l.page.Marks = append(l.page.Marks, dashed(r, dashLength.Dots(l.page.DPI))...)
		} else {
			l.page.Marks = append(l.page.Marks, r)
		}
	}
	return nil
}

// dashed cuts a line into dashes with gaps of the same length.
func dashed(line geometry.Rect, dash geometry.Dot) []geometry.Rect {
	var dashes []geometry.Rect
	for from := geometry.Dot(0); from < max(line.Width, line.Height); from += 2 * dash {
		d := line
		if line.Width > line.Height {
			d.X, d.Width = line.X+from, min(dash, line.Width-from)
		} else {
			d.Y, d.Height = line.Y+from, min(dash, line.Height-from)
		}
		dashes = append(dashes, d)
	}
	return dashes
}

// holes keeps the ink off each hole and marks its middle with a cross that the punch
// takes away.
func (l *layout) holes(t *templates.Template) error {
	arm := crossArm.Dots(l.page.DPI)
	width := max(guideWidth.Dots(l.page.DPI), 1)
	for _, h := range t.Holes {
		x, y, r := h.X.Dots(l.page.DPI), h.Y.Dots(l.page.DPI), (h.Diameter / 2).Dots(l.page.DPI)
		var kept []geometry.Rect
		for _, ink := range l.page.Ink {
			kept = append(kept, withoutDisc(ink, x, y, r)...)
		}
		l.page.Ink = kept
		l.page.Marks = append(l.page.Marks,
			geometry.Rect{X: x - arm, Y: y - width/2, Width: 2*arm + 1, Height: width},
			geometry.Rect{X: x - width/2, Y: y - arm, Width: width, Height: 2*arm + 1})
		l.page.Holes = append(l.page.Holes, geometry.Rect{X: x - r, Y: y - r, Width: 2 * r, Height: 2 * r})
	}
	return nil
}

// withoutDisc is a rectangle less a disc around x, y: strips as high as they can be.
func withoutDisc(r geometry.Rect, x, y, radius geometry.Dot) []geometry.Rect {
	var strips []geometry.Rect
	add := func(row, left, right geometry.Dot) {
		if right <= left {
			return
		}
		for i := len(strips) - 1; i >= 0 && i >= len(strips)-2; i-- {
			if s := &strips[i]; s.X == left && s.Right() == right && s.Bottom() == row {
				s.Height++
				return
			}
		}
		strips = append(strips, geometry.Rect{X: left, Y: row, Width: right - left, Height: 1})
	}
	for row := r.Y; row < r.Bottom(); row++ {
		half := halfChord(row-y, radius)
		if half < 0 || x+half <= r.X || x-half >= r.Right() {
			add(row, r.X, r.Right())
			continue
		}
		add(row, r.X, min(x-half, r.Right()))
		add(row, max(x+half, r.X), r.Right())
	}
	return strips
}

// halfChord is half the width of a disc at a row from its middle; -1 outside it.
func halfChord(row, radius geometry.Dot) geometry.Dot {
	middle := float64(row) + 0.5
	square := float64(radius)*float64(radius) - middle*middle
	if square <= 0 {
		return -1
	}
	return geometry.Dot(math.Ceil(math.Sqrt(square)))
}
