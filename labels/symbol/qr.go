package symbol

import (
	"errors"
	"fmt"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/qrcode/decoder"
	"github.com/makiuchi-d/gozxing/qrcode/encoder"
)

// Level is a QR code's error correction level: L, M, Q or H, weakest first.
type Level string

// Levels are the error correction levels from the weakest to the strongest.
func Levels() []Level { return []Level{"L", "M", "Q", "H"} }

// Known tells whether l is one of the four levels.
func (l Level) Known() bool { return l.rank() >= 0 }

// rank is the level's place among Levels, or -1.
func (l Level) rank() int {
	for i, known := range Levels() {
		if l == known {
			return i
		}
	}
	return -1
}

// ErrNoText says that an empty text cannot be put into a symbol.
var ErrNoText = errors.New("a symbol needs a text")

// EncodeQR makes a QR code of a text at an error correction level. Version 0 takes
// the smallest version that holds the text; any other is used or refused.
// The mask is chosen by the penalty rules of ISO/IEC 18004, 7.8.3.
func EncodeQR(text string, level Level, version int) (Symbol, error) {
	if text == "" {
		return Symbol{}, ErrNoText
	}
	if !level.Known() {
		return Symbol{}, fmt.Errorf("%q is not an error correction level: use L, M, Q or H", level)
	}
	hints := map[gozxing.EncodeHintType]any{}
	if version != 0 {
		hints[gozxing.EncodeHintType_QR_VERSION] = version
	}
	code, err := encoder.Encoder_encode(text, libraryLevel(level), hints)
	if err != nil {
		return Symbol{}, fmt.Errorf("%d characters do not fit a QR code at level %s: %w", len(text), level, err)
	}
	return fromQRMatrix(code, text, level), nil
}

// libraryLevel is the level in the encoder's own type.
func libraryLevel(level Level) decoder.ErrorCorrectionLevel {
	switch level {
	case "L":
		return decoder.ErrorCorrectionLevel_L
	case "M":
		return decoder.ErrorCorrectionLevel_M
	case "Q":
		return decoder.ErrorCorrectionLevel_Q
	default:
		return decoder.ErrorCorrectionLevel_H
	}
}

// fromQRMatrix copies the encoder's matrix.
func fromQRMatrix(code *encoder.QRCode, text string, level Level) Symbol {
	matrix := code.GetMatrix()
	s := newSymbol(QR, text, matrix.GetWidth(), matrix.GetHeight())
	s.Level, s.Version = level, code.GetVersion().GetVersionNumber()
	for row := range s.Rows {
		for column := range s.Columns {
			s.dark[row*s.Columns+column] = matrix.Get(column, row) == 1
		}
	}
	return s
}
