// Package symbol makes the machine-readable symbols of a tag as matrices of
// modules, and chooses the one that a printer can draw best in the room there is.
package symbol

import "steeltally/geometry"

// Symbology is a family of machine-readable symbols.
type Symbology string

// The symbologies that a tag may carry, named as in a template.
const (
	QR         Symbology = "qr"         // ISO/IEC 18004
	DataMatrix Symbology = "datamatrix" // ISO/IEC 16022
	Code128    Symbology = "code128"    // ISO/IEC 15417
)

// Known tells whether s is one of the symbologies above.
func (s Symbology) Known() bool { return s == QR || s == DataMatrix || s == Code128 }

// Title is the symbology's name as its standard writes it.
func (s Symbology) Title() string {
	switch s {
	case QR:
		return "QR"
	case DataMatrix:
		return "Data Matrix"
	case Code128:
		return "Code 128"
	}
	return string(s)
}

// QuietZone is the empty margin that the symbology's standard asks for, in modules.
// For Code 128 it is asked for to the left and right only.
func (s Symbology) QuietZone() int {
	switch s {
	case QR:
		return 4
	case Code128:
		return 10
	default:
		return 1
	}
}

// Symbol is a matrix of square modules without its quiet zone. A Code 128 is one row.
type Symbol struct {
	Symbology Symbology
	Text      string // what a reader gives back
	Level     Level  // error correction level, QR only
	Version   int    // QR only, 1 to 40
	Columns   int
	Rows      int
	dark      []bool
}

// newSymbol is an empty matrix of the given size.
func newSymbol(kind Symbology, text string, columns, rows int) Symbol {
	return Symbol{Symbology: kind, Text: text, Columns: columns, Rows: rows, dark: make([]bool, columns*rows)}
}

// Dark tells whether the module in a column and row (from the top left, from 0) is
// printed. Outside the matrix is the quiet zone: not printed.
func (s Symbol) Dark(column, row int) bool {
	if column < 0 || row < 0 || column >= s.Columns || row >= s.Rows {
		return false
	}
	return s.dark[row*s.Columns+column]
}

// Quiet is the quiet zone to the sides, and above and below, in modules.
func (s Symbol) Quiet() (sides, above int) {
	if s.Symbology == Code128 {
		return s.Symbology.QuietZone(), 0
	}
	return s.Symbology.QuietZone(), s.Symbology.QuietZone()
}

// Area is the symbol with its quiet zone, in dots, at a number of dots a module.
// A Code 128 is one module high here: its bars are as high as its place allows.
func (s Symbol) Area(dots geometry.Dot) (width, height geometry.Dot) {
	sides, above := s.Quiet()
	return geometry.Dot(s.Columns+2*sides) * dots, geometry.Dot(s.Rows+2*above) * dots
}

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
