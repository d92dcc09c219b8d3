package report

import (
	"slices"

	"steeltally/geometry"
	"steeltally/labels/lettering"
)

// table writes a table; its head is repeated on each page.
func (w *writer) table(t Table) {
	w.skip(lineDistance / 2)
	w.room(headHeight + 5*lineDistance)
	w.line(lettering.Bold, headHeight, t.Title)
	for _, note := range t.Notes {
		w.paragraph(note)
	}
	if len(t.Rows) == 0 || len(t.Columns) == 0 {
		w.paragraph(t.Empty)
		return
	}
	columns := w.columns(t)
	w.head(t, columns)
	for _, row := range t.Rows {
		cells := w.cells(row, columns)
		if w.room(height(cells)) {
			w.head(t, columns)
		}
		w.row(lettering.Of(lettering.Regular), cells, t, columns)
		w.rule(margin, w.y-lineDistance/4, total(columns), 0)
	}
	w.skip(lineDistance / 2)
}

// column is a column's place on the page.
type column struct {
	x, width geometry.Millimetre
}

// total is the width of all columns with their gaps.
func total(columns []column) geometry.Millimetre {
	last := columns[len(columns)-1]
	return last.x + last.width - margin
}

// columns gives each column the width of its longest cell; when the page is too
// narrow for that, the wide ones share what the narrow ones leave.
func (w *writer) columns(t Table) []column {
	regular, bold := lettering.Of(lettering.Regular), lettering.Of(lettering.Bold)
	widths := make([]geometry.Millimetre, len(t.Columns))
	for i, c := range t.Columns {
		widths[i] = w.measure(bold, c.Title)
		for _, row := range t.Rows {
			if i < len(row) {
				widths[i] = max(widths[i], w.measure(regular, row[i]))
			}
		}
	}
	share(widths, w.width()-columnGap*geometry.Millimetre(len(widths)-1))
	columns := make([]column, len(widths))
	x := margin
	for i, width := range widths {
		columns[i] = column{x, width}
		x += width + columnGap
	}
	return columns
}

// measure is the width of a cell in one line.
func (w *writer) measure(face *lettering.Face, text string) geometry.Millimetre {
	em := w.em(face, textHeight)
	clean, _ := face.Clean(text)
	widest := 0
	for _, line := range face.Break(clean, 1<<30) {
		widest = max(widest, face.Measure(line).Width())
	}
	return geometry.Dot(widest*int(em)/lettering.Em + 1).Millimetres(w.dpi)
}

// share lowers the widest widths to one limit, so that all add up to at most room.
func share(widths []geometry.Millimetre, room geometry.Millimetre) {
	sorted := slices.Sorted(slices.Values(widths))
	left := room
	for i, width := range sorted {
		limit := left / geometry.Millimetre(len(sorted)-i)
		if width > limit {
			for n := range widths {
				widths[n] = min(widths[n], limit)
			}
			return
		}
		left -= width
	}
}

// cells breaks a row's cells into lines that fit their columns.
func (w *writer) cells(row []string, columns []column) [][]string {
	face := lettering.Of(lettering.Regular)
	cells := make([][]string, len(columns))
	for i := range columns {
		if i < len(row) {
			cells[i] = w.fit(face, row[i], columns[i])
		}
	}
	return cells
}

// fit breaks one cell into lines; a word that is too wide is cut short.
func (w *writer) fit(face *lettering.Face, text string, c column) []string {
	units := w.units(face, textHeight, c.width)
	lines := face.Break(w.clean(face, text), units)
	for i, line := range lines {
		lines[i] = face.Shorten(line, units)
	}
	return lines
}

// height is the height of a row.
func height(cells [][]string) geometry.Millimetre {
	lines := 1
	for _, cell := range cells {
		lines = max(lines, len(cell))
	}
	return geometry.Millimetre(lines) * lineDistance
}

// head writes the columns' titles over a rule.
func (w *writer) head(t Table, columns []column) {
	face := lettering.Of(lettering.Bold)
	cells := make([][]string, len(columns))
	for i, c := range t.Columns {
		cells[i] = w.fit(face, c.Title, columns[i])
	}
	w.row(face, cells, t, columns)
	w.rule(margin, w.y-lineDistance/4, total(columns), ruleWidth)
}

// row writes a row's lines.
func (w *writer) row(face *lettering.Face, cells [][]string, t Table, columns []column) {
	for i, cell := range cells {
		for n, line := range cell {
			x := columns[i].x
			if t.Columns[i].Right {
				x += columns[i].width - w.measure(face, line)
			}
			w.put(face, textHeight, x, w.y+geometry.Millimetre(n)*lineDistance, line)
		}
	}
	w.y += height(cells)
}
