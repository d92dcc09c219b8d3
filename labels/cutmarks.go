package labels

import "steeltally/geometry"

// tick is the length of a cut mark along each edge of a corner.
const tick geometry.Millimetre = 2

// mark outlines a tag that does not fill its cell, and ticks the cell's corners if
// cut marks are wanted.
func (i Imposition) mark(sheet *Page, tag Page, cell geometry.Rect) {
	width := max(guideWidth.Dots(tag.DPI), 1)
	own := geometry.Rect{X: cell.X, Y: cell.Y, Width: tag.Width, Height: tag.Height}
	if right := cell.Right() - own.Right(); right > width {
		sheet.Marks = append(sheet.Marks, geometry.Rect{X: own.Right(), Y: own.Y, Width: width, Height: own.Height})
	}
	if below := cell.Bottom() - own.Bottom(); below > width {
		sheet.Marks = append(sheet.Marks, geometry.Rect{X: own.X, Y: own.Bottom(), Width: own.Width, Height: width})
	}
	if i.CutMarks {
		sheet.Marks = append(sheet.Marks, corners(own, tick.Dots(tag.DPI), width)...)
	}
}

// corners are two ticks along the edges at each corner of a rectangle, inside it.
func corners(r geometry.Rect, length, width geometry.Dot) []geometry.Rect {
	var ticks []geometry.Rect
	for _, x := range []geometry.Dot{r.X, r.Right() - length} {
		for _, y := range []geometry.Dot{r.Y, r.Bottom() - width} {
			ticks = append(ticks, geometry.Rect{X: x, Y: y, Width: length, Height: width})
		}
	}
	for _, x := range []geometry.Dot{r.X, r.Right() - width} {
		for _, y := range []geometry.Dot{r.Y, r.Bottom() - length} {
			ticks = append(ticks, geometry.Rect{X: x, Y: y, Width: width, Height: length})
		}
	}
	return ticks
}
