package symbol

import (
	"fmt"
	"image/color"
	"strings"

	"github.com/boombuler/barcode/code128"
)

// EncodeCode128 makes a Code 128 of an even number of digits, in code set C, which
// packs two digits into one character. Other texts are refused: a piece's number is
// all that a tag prints this way.
func EncodeCode128(digits string) (Symbol, error) {
	if digits == "" {
		return Symbol{}, ErrNoText
	}
	if strings.Trim(digits, "0123456789") != "" || len(digits)%2 != 0 || len(digits) < 4 {
		return Symbol{}, fmt.Errorf("%q: a Code 128 takes an even number of digits here, four or more", digits)
	}
	code, err := code128.Encode(digits)
	if err != nil {
		return Symbol{}, fmt.Errorf("%q as a Code 128: %w", digits, err)
	}
	s := newSymbol(Code128, digits, code.Bounds().Dx(), 1)
	for column := range s.Columns {
		s.dark[column] = color.GrayModel.Convert(code.At(column, 0)).(color.Gray).Y == 0
	}
	return s, nil
}
