// Package modules holds the grid of dark and light modules of a symbol: those that
// every symbol of its kind and size has, where the codewords lie, and what they say.
package modules

// Cell is the place of a module: column and row from the top left; -1, and the
// number of columns or rows, are in the quiet zone.
type Cell struct{ Column, Row int }

// Matrix is the modules of a symbol without its quiet zone.
type Matrix struct {
	Columns, Rows int
	dark          []bool
}

// NewMatrix makes an all-light matrix.
func NewMatrix(columns, rows int) *Matrix {
	return &Matrix{Columns: columns, Rows: rows, dark: make([]bool, columns*rows)}
}

// Dark tells whether a module is dark.
func (m *Matrix) Dark(c Cell) bool { return m.dark[c.Row*m.Columns+c.Column] }

// Set makes a module dark or light.
func (m *Matrix) Set(c Cell, dark bool) { m.dark[c.Row*m.Columns+c.Column] = dark }
