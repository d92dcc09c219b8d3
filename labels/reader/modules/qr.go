package modules

import (
	"fmt"

	"github.com/makiuchi-d/gozxing"
	"github.com/makiuchi-d/gozxing/common/reedsolomon"
	"github.com/makiuchi-d/gozxing/qrcode/decoder"
)

// qrSymbol is the codewords of a QR Code symbol as they were seen.
type qrSymbol struct {
	version *decoder.Version
	level   decoder.ErrorCorrectionLevel
	words   []byte
}

// DecodeQR corrects and reads the codewords of a QR Code symbol.
func DecodeQR(m *Matrix) (Decoded, error) {
	symbol, err := readQR(m)
	if err != nil {
		return Decoded{}, err
	}
	data, blocks, err := symbol.mended()
	if err != nil {
		return Decoded{}, err
	}
	result, err := decoder.DecodedBitStreamParser_Decode(data, symbol.version, symbol.level, nil)
	if err != nil {
		return Decoded{}, err
	}
	return Decoded{Text: result.GetText(), Blocks: blocks}, nil
}

// readQR reads the format of a symbol and takes its mask off.
func readQR(m *Matrix) (*qrSymbol, error) {
	if m.Columns != m.Rows || m.Rows < LeastQRSide || m.Rows > MostQRSide || m.Rows%QRSideStep != 1 {
		return nil, fmt.Errorf("a QR Code of %d × %d modules: %w", m.Columns, m.Rows, ErrSize)
	}
	bits, err := m.libraryMatrix()
	if err != nil {
		return nil, err
	}
	parser, err := decoder.NewBitMatrixParser(bits)
	if err != nil {
		return nil, err
	}
	version, err := parser.ReadVersion()
	if err != nil {
		return nil, err
	}
	format, err := parser.ReadFormatInformation()
	if err != nil {
		return nil, err
	}
	words, err := parser.ReadCodewords()
	if err != nil {
		return nil, err
	}
	return &qrSymbol{version, format.GetErrorCorrectionLevel(), words}, nil
}

// libraryMatrix is the modules as the library wants them.
func (m *Matrix) libraryMatrix() (*gozxing.BitMatrix, error) {
	bits, err := gozxing.NewBitMatrix(m.Columns, m.Rows)
	if err != nil {
		return nil, err
	}
	for i, dark := range m.dark {
		if dark {
			bits.Set(i%m.Columns, i/m.Columns)
		}
	}
	return bits, nil
}

// mended corrects all blocks and puts their data codewords together.
func (q *qrSymbol) mended() (data []byte, blocks []Block, err error) {
	cells := qrCells(q.version.GetDimensionForVersion())
	places, err := q.places()
	if err != nil {
		return nil, nil, err
	}
	for _, place := range places {
		block := Block{Correctable: q.correctable()}
		words := make([]int, len(place))
		for i, at := range place {
			words[i] = int(q.words[at])
			block.Words = append(block.Words, cells[at])
		}
		if err := block.mend(words, q.checkWords(), reedsolomon.GenericGF_QR_CODE_FIELD_256); err != nil {
			return nil, nil, err
		}
		blocks = append(blocks, block)
		for _, w := range words[:len(words)-q.checkWords()] {
			data = append(data, byte(w))
		}
	}
	return data, blocks, nil
}

// places gives, for each block, where its codewords come in the order of the
// symbol. The library deals bytes out to blocks, so the low and the high bytes of
// the places are dealt one after the other.
func (q *qrSymbol) places() ([][]int, error) {
	var dealt [2][]*decoder.DataBlock
	for half := range dealt {
		bytes := make([]byte, len(q.words))
		for i := range bytes {
			bytes[i] = byte(i >> (8 * half))
		}
		blocks, err := decoder.DataBlock_GetDataBlocks(bytes, q.version, q.level)
		if err != nil {
			return nil, err
		}
		dealt[half] = blocks
	}
	places := make([][]int, len(dealt[0]))
	for b := range places {
		high := dealt[1][b].GetCodewords()
		for i, low := range dealt[0][b].GetCodewords() {
			places[b] = append(places[b], int(low)|int(high[i])<<8)
		}
	}
	return places, nil
}

// checkWords is the number of error correction codewords a block.
func (q *qrSymbol) checkWords() int {
	return q.version.GetECBlocksForLevel(q.level).GetECCodewordsPerBlock()
}

// correctable is the number of wrong codewords a block that may be mended. In the
// smallest symbols the standard keeps some error correction back against misreading
// (ISO/IEC 18004, table 9; recalled from memory).
func (q *qrSymbol) correctable() int {
	kept := 0
	switch version := q.version.GetVersionNumber(); {
	case version == 1 && q.level == decoder.ErrorCorrectionLevel_L:
		kept = 3
	case version == 1 && q.level == decoder.ErrorCorrectionLevel_M:
		kept = 2
	case version == 2 && q.level == decoder.ErrorCorrectionLevel_L:
		kept = 2
	}
	return (q.checkWords() - kept) / 2
}

// qrCells gives the eight modules of each codeword of a QR Code symbol, most
// significant first: pairs of columns from the right, up and down in turn, past
// everything that is not data (ISO/IEC 18004, 7.7.3).
func qrCells(side int) [][]Cell {
	taken := qrTaken(side)
	var free []Cell
	for right, up := side-1, true; right > 0; right, up = right-2, !up {
		if right == timingLine {
			right--
		}
		for i := range side {
			row := i
			if up {
				row = side - 1 - i
			}
			for _, cell := range [2]Cell{{right, row}, {right - 1, row}} {
				if !taken[cell] {
					free = append(free, cell)
				}
			}
		}
	}
	words := make([][]Cell, 0, len(free)/8)
	for ; len(free) >= 8; free = free[8:] {
		words = append(words, free[:8])
	}
	return words
}

// timingLine is the row and the column of the timing patterns.
const timingLine = 6

// qrTaken marks the modules that hold no data: the known ones, and those of the
// format and, from version 7 on, of the version.
func qrTaken(side int) map[Cell]bool {
	taken := map[Cell]bool{}
	for _, k := range KnownQR(side) {
		taken[k.Cell] = true
	}
	for i := range 9 {
		taken[Cell{i, 8}], taken[Cell{8, i}] = true, true
	}
	for i := side - 8; i < side; i++ {
		taken[Cell{i, 8}], taken[Cell{8, i}] = true, true
	}
	if qrVersion(side) >= 7 {
		for i := range 6 {
			for j := side - 11; j < side-8; j++ {
				taken[Cell{i, j}], taken[Cell{j, i}] = true, true
			}
		}
		takeOnTiming(taken, side)
	}
	return taken
}

// takeOnTiming marks the alignment patterns in the middle of the timing patterns.
func takeOnTiming(taken map[Cell]bool, side int) {
	middle := (timingLine + side - 7) / 2
	for across := -2; across <= 2; across++ {
		for along := -2; along <= 2; along++ {
			taken[Cell{middle + along, timingLine + across}] = true
			taken[Cell{timingLine + across, middle + along}] = true
		}
	}
}
