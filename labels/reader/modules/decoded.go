// Package modules holds the grid of dark and light modules of a symbol: those that
// every symbol of its kind and size has, where the codewords lie, and what they say.
package modules

import (
	"errors"

	"github.com/makiuchi-d/gozxing/common/reedsolomon"
)

// Decoded is what a symbol says, and how each block of its codewords was mended.
type Decoded struct {
	Text   string
	Blocks []Block
}

// Block is the codewords that are mended together.
type Block struct {
	Words       [][]Cell // the eight modules of each codeword, most significant first
	Wrong       []bool   // whether a codeword was mended
	Correctable int      // how many wrong codewords may be mended with safety
}

// Spare is the part of the error correction that the worst block left unused, from
// 0 to 1.
func (d Decoded) Spare() float64 {
	spare := 1.0
	for _, b := range d.Blocks {
		spare = min(spare, b.spare())
	}
	return spare
}

func (b Block) spare() float64 {
	wrong := 0
	for _, w := range b.Wrong {
		if w {
			wrong++
		}
	}
	return 1 - float64(wrong)/float64(b.Correctable)
}

var (
	// ErrSize says that no symbol of the kind has that many columns and rows.
	ErrSize = errors.New("no symbol has this size")
	// ErrTooDamaged says that more codewords are wrong than can be mended with safety.
	ErrTooDamaged = errors.New("more is wrong than the error correction can mend with safety")
)

// mend corrects the words of a block, of which the last check ones are for error
// correction, and notes which were wrong.
func (b *Block) mend(words []int, check int, field *reedsolomon.GenericGF) error {
	before := append([]int(nil), words...)
	if err := reedsolomon.NewReedSolomonDecoder(field).Decode(words, check); err != nil {
		return err
	}
	sound, err := isCodeword(words, check, field)
	if err != nil {
		return err
	}
	b.Wrong = make([]bool, len(words))
	for i := range words {
		b.Wrong[i] = words[i] != before[i]
	}
	if !sound || b.spare() < 0 {
		return ErrTooDamaged
	}
	return nil
}

// isCodeword tells whether words satisfy all of their check equations. The library
// does not look back at what it mended: with an odd number of check words it lets
// one in a few thousand random blocks of the smallest symbols through.
func isCodeword(words []int, check int, field *reedsolomon.GenericGF) (bool, error) {
	polynomial, err := reedsolomon.NewGenericGFPoly(field, words)
	if err != nil {
		return false, err
	}
	for i := range check {
		if polynomial.EvaluateAt(field.Exp(i+field.GetGeneratorBase())) != 0 {
			return false, nil
		}
	}
	return true, nil
}

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

// DataMatrixSize is one of the sizes that the standard allows.
type DataMatrixSize struct {
	Columns, Rows int
	data, check   int // codewords
	regions       int // across; as many down where square
}

// DataMatrixSizes are the sizes that this reader looks for: square up to 26 × 26
// and rectangular (ISO/IEC 16022:2006, table 7).
func DataMatrixSizes() []DataMatrixSize {
	return []DataMatrixSize{
		{10, 10, 3, 5, 1}, {12, 12, 5, 7, 1}, {14, 14, 8, 10, 1}, {16, 16, 12, 12, 1},
		{18, 18, 18, 14, 1}, {20, 20, 22, 18, 1}, {22, 22, 30, 20, 1}, {24, 24, 36, 24, 1},
		{26, 26, 44, 28, 1},
		{18, 8, 5, 7, 1}, {32, 8, 10, 11, 2}, {26, 12, 16, 14, 1}, {36, 12, 22, 18, 2},
		{36, 16, 32, 24, 2}, {48, 16, 49, 28, 2},
	}
}

func (s DataMatrixSize) regionColumns() int { return s.Columns / s.regions }

func (s DataMatrixSize) regionRows() int {
	if s.Columns != s.Rows {
		return s.Rows
	}
	return s.Rows / s.regions
}

// dataMatrixSize finds the size of a matrix.
func dataMatrixSize(columns, rows int) (DataMatrixSize, bool) {
	for _, s := range DataMatrixSizes() {
		if s.Columns == columns && s.Rows == rows {
			return s, true
		}
	}
	return DataMatrixSize{}, false
}

// The sides of the QR Code symbols that this reader looks for, in modules:
// versions 1 to 10.
const (
	LeastQRSide = 21
	MostQRSide  = 57
	QRSideStep  = 4
)

// qrVersion is the version with a side of that many modules.
func qrVersion(side int) int { return (side - 17) / QRSideStep }

// Known is a module that has the same colour in every symbol of its kind and size.
type Known struct {
	Cell
	Dark bool
}

// KnownDataMatrix is the solid and alternating borders of a symbol's regions and
// one module of quiet zone around it (ISO/IEC 16022, 5.5.1).
func KnownDataMatrix(s DataMatrixSize) []Known {
	known := quietZone(s.Columns, s.Rows)
	width, height := s.regionColumns(), s.regionRows()
	for row := range s.Rows {
		for column := range s.Columns {
			x, y := column%width, row%height
			switch {
			case x == 0 || y == height-1:
				known = append(known, Known{Cell{column, row}, true})
			case y == 0:
				known = append(known, Known{Cell{column, row}, x%2 == 0})
			case x == width-1:
				known = append(known, Known{Cell{column, row}, y%2 == 1})
			}
		}
	}
	return known
}

// KnownQR is the finder, timing and alignment patterns of a QR Code symbol of
// 21 to 57 modules a side (versions 1 to 10), and one module of quiet zone around
// it (ISO/IEC 18004, 6.3).
func KnownQR(side int) []Known {
	known := quietZone(side, side)
	for row := -1; row < 8; row++ {
		for column := -1; column < 8; column++ {
			dark := finderDark(column, row)
			known = appendInside(known, side, Known{Cell{column, row}, dark})
			known = appendInside(known, side, Known{Cell{side - 1 - column, row}, dark})
			known = appendInside(known, side, Known{Cell{column, side - 1 - row}, dark})
		}
	}
	for i := 8; i < side-8; i++ {
		known = append(known, Known{Cell{i, 6}, i%2 == 0}, Known{Cell{6, i}, i%2 == 0})
	}
	for _, center := range alignmentCenters(side) {
		known = append(known, alignmentPattern(center)...)
	}
	return known
}

// appendInside keeps what is not in the quiet zone, which is known already.
func appendInside(known []Known, side int, k Known) []Known {
	if k.Column < 0 || k.Row < 0 || k.Column >= side || k.Row >= side {
		return known
	}
	return append(known, k)
}

// finderDark is the pattern of three nested squares with its separator, its dark
// part from 0 to 6 both ways.
func finderDark(column, row int) bool {
	distance := max(abs(column-3), abs(row-3))
	return distance <= 1 || distance == 3
}

// AlignmentPattern is the alignment pattern nearest to the lower right corner of a
// QR Code symbol of that many modules a side; the smallest has none.
func AlignmentPattern(side int) []Known {
	if qrVersion(side) < 2 {
		return nil
	}
	return alignmentPattern(Cell{side - 7, side - 7})
}

// alignmentPattern is the five by five modules around a center.
func alignmentPattern(center Cell) []Known {
	var known []Known
	for dy := -2; dy <= 2; dy++ {
		for dx := -2; dx <= 2; dx++ {
			dark := max(abs(dx), abs(dy)) != 1
			known = append(known, Known{Cell{center.Column + dx, center.Row + dy}, dark})
		}
	}
	return known
}

// alignmentCenters gives the alignment patterns that do not lie on a timing pattern.
func alignmentCenters(side int) []Cell {
	last := side - 7
	switch version := qrVersion(side); {
	case version == 1:
		return nil
	case version < 7:
		return []Cell{{last, last}}
	default:
		middle := (6 + last) / 2
		return []Cell{{last, last}, {middle, last}, {last, middle}, {middle, middle}}
	}
}

// quietZone is the light frame of one module around a symbol.
func quietZone(columns, rows int) []Known {
	var known []Known
	for column := -1; column <= columns; column++ {
		known = append(known, Known{Cell{column, -1}, false}, Known{Cell{column, rows}, false})
	}
	for row := range rows {
		known = append(known, Known{Cell{-1, row}, false}, Known{Cell{columns, row}, false})
	}
	return known
}

func abs(n int) int { return max(n, -n) }
