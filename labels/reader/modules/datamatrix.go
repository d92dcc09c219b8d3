package modules

import (
	"fmt"

	"github.com/makiuchi-d/gozxing/common/reedsolomon"
	"github.com/makiuchi-d/gozxing/datamatrix/decoder"
	"github.com/makiuchi-d/gozxing/datamatrix/encoder"
)

// DecodeDataMatrix corrects and reads the codewords of a Data Matrix symbol.
func DecodeDataMatrix(m *Matrix) (Decoded, error) {
	size, known := dataMatrixSize(m.Columns, m.Rows)
	if !known {
		return Decoded{}, fmt.Errorf("a Data Matrix of %d × %d modules: %w", m.Columns, m.Rows, ErrSize)
	}
	block := Block{Words: dataMatrixCells(size), Correctable: size.check / 2}
	words := readWords(m, block.Words)
	if err := block.mend(words, size.check, reedsolomon.GenericGF_DATA_MATRIX_FIELD_256); err != nil {
		return Decoded{}, err
	}
	data := make([]byte, size.data)
	for i := range data {
		data[i] = byte(words[i])
	}
	result, err := decoder.DecodedBitStreamParser_decode(data)
	if err != nil {
		return Decoded{}, err
	}
	return Decoded{Text: result.GetText(), Blocks: []Block{block}}, nil
}

// readWords puts codewords together from their modules, most significant bit first.
func readWords(m *Matrix, cells [][]Cell) []int {
	words := make([]int, len(cells))
	for i, word := range cells {
		for _, cell := range word {
			words[i] <<= 1
			if m.Dark(cell) {
				words[i] |= 1
			}
		}
	}
	return words
}

// dataMatrixCells gives the eight modules of each codeword, most significant
// first. The library places codewords; asked to place words that have one bit set
// in one word, it shows where that bit lies.
func dataMatrixCells(s DataMatrixSize) [][]Cell {
	columns, rows := s.Columns-2*s.regions, s.Rows-2*s.Rows/s.regionRows()
	cells := make([][]Cell, s.data+s.check)
	for i := range cells {
		cells[i] = make([]Cell, 8)
	}
	for bit := range 8 {
		labels := placedLabels(len(cells), bit, columns, rows)
		for i, label := range labels {
			if label > 0 {
				column, row := i%columns, i/columns
				cells[label-1][bit] = Cell{s.outer(column, s.regionColumns()), s.outer(row, s.regionRows())}
			}
		}
	}
	return cells
}

// outer turns a place among the data modules into one in the whole symbol.
func (s DataMatrixSize) outer(place, region int) int {
	return place + 1 + place/(region-2)*2
}

// placedLabels gives each data module the number of the codeword, from 1, that has
// this bit there, and 0 to all others. The number is put together from placements
// of words that have the bit set where a binary digit of their number is set.
func placedLabels(words, bit, columns, rows int) []int {
	labels := make([]int, columns*rows)
	for digit := 0; 1<<digit <= words; digit++ {
		set := make([]byte, words)
		for i := range set {
			if (i+1)>>digit&1 == 1 {
				set[i] = 1 << (7 - bit)
			}
		}
		placement := encoder.NewDefaultPlacement(set, columns, rows)
		placement.Place()
		for i := range labels {
			if placement.GetBit(i%columns, i/columns) {
				labels[i] |= 1 << digit
			}
		}
	}
	return withoutFiller(labels, words, columns, rows)
}

// withoutFiller clears the two fixed dark modules in the lower right corner of
// sizes whose modules are not a multiple of eight.
func withoutFiller(labels []int, words, columns, rows int) []int {
	if columns*rows > 8*words {
		labels[(rows-1)*columns+columns-1] = 0
		labels[(rows-2)*columns+columns-2] = 0
	}
	return labels
}
