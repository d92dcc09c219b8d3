package symbol

import "steeltally/geometry"

// Rects covers the dark modules with as few rectangles as a plain sweep finds, in
// modules from the symbol's top left. They do not overlap, and none could grow
// sideways. A sweep by rows and one by columns are tried; the shorter list wins.
func (s Symbol) Rects() []geometry.Rect {
	rows := sweep(s.Columns, s.Rows, s.Dark)
	columns := sweep(s.Rows, s.Columns, func(x, y int) bool { return s.Dark(y, x) })
	if len(rows) <= len(columns) {
		return rows
	}
	for i, r := range columns {
		columns[i] = geometry.Rect{X: r.Y, Y: r.X, Width: r.Height, Height: r.Width}
	}
	return columns
}

// sweep collects the runs of dark modules of each row, and lets a run that has the
// same ends as one right above it make that one higher.
func sweep(columns, rows int, dark func(x, y int) bool) []geometry.Rect {
	var done []geometry.Rect
	open := map[[2]int]int{} // ends of a run in the row above: its place in done
	for y := range rows {
		current := map[[2]int]int{}
		for x := 0; x < columns; x++ {
			if !dark(x, y) {
				continue
			}
			end := x
			for end < columns && dark(end, y) {
				end++
			}
			run := [2]int{x, end}
			if above, ok := open[run]; ok {
				done[above].Height++
				current[run] = above
			} else {
				current[run] = len(done)
				done = append(done, geometry.Rect{X: geometry.Dot(x), Y: geometry.Dot(y), Width: geometry.Dot(end - x), Height: 1})
			}
			x = end
		}
		open = current
	}
	return done
}
