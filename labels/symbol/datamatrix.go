package symbol

import (
	"fmt"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/datamatrix"
	"github.com/makiuchi-d/gozxing/datamatrix/encoder"
)

// Shape is the outline of a Data Matrix.
type Shape bool

// The two shapes; a rectangle is lower and longer than the square for the same text.
const (
	Square    Shape = false
	Rectangle Shape = true
)

// EncodeDataMatrix makes the smallest Data Matrix (ECC 200) of a shape that holds the
// text: ten digits fill a square of 12 x 12 or a rectangle of 8 rows and 18 columns.
func EncodeDataMatrix(text string, shape Shape) (Symbol, error) {
	if text == "" {
		return Symbol{}, ErrNoText
	}
	hint := encoder.SymbolShapeHint_FORCE_SQUARE
	if shape == Rectangle {
		hint = encoder.SymbolShapeHint_FORCE_RECTANGLE
	}
	hints := map[gozxing.EncodeHintType]any{gozxing.EncodeHintType_DATA_MATRIX_SHAPE: hint}
	matrix, err := datamatrix.NewDataMatrixWriter().Encode(text, gozxing.BarcodeFormat_DATA_MATRIX, 0, 0, hints)
	if err != nil {
		return Symbol{}, fmt.Errorf("%d characters do not fit a Data Matrix: %w", len(text), err)
	}
	s := newSymbol(DataMatrix, text, matrix.GetWidth(), matrix.GetHeight())
	for row := range s.Rows {
		for column := range s.Columns {
			s.dark[row*s.Columns+column] = matrix.Get(column, row)
		}
	}
	return s, nil
}
