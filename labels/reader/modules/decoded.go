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
