package grade

import (
	"math"

	"steeltally/labels/reader/modules"
)

// modulation is how far the modules keep from the threshold, twice the distance as
// a share of the contrast. A codeword counts with its worst module. Error correction
// makes up for weak codewords, so each level is tried in turn: the codewords that do
// not reach it count as wrong, and what error correction is then left unused is
// graded too; the lower of the two is what this level yields, and the best yield is
// the grade. The value is that of the worst codeword.
func (s spots) modulation(blocks []modules.Block) (worst float64, level Level) {
	worst = 1
	weakest := make([][]float64, len(blocks))
	for b, block := range blocks {
		for _, word := range block.Words {
			value := s.wordModulation(word)
			weakest[b] = append(weakest[b], value)
			worst = min(worst, value)
		}
	}
	for tried := Level(4); tried > 0; tried-- {
		level = max(level, min(tried, spareAt(tried, blocks, weakest)))
	}
	return worst, level
}

// wordModulation is the lowest modulation of a codeword's modules.
func (s spots) wordModulation(word []modules.Cell) float64 {
	lowest, contrast, threshold := 1.0, s.contrast(), s.threshold()
	for _, cell := range word {
		lowest = min(lowest, 2*math.Abs(s.inside[cell]-threshold)/contrast)
	}
	return lowest
}

// spareAt grades the error correction that is left where the codewords below a
// level count as wrong.
func spareAt(level Level, blocks []modules.Block, weakest [][]float64) Level {
	spare := 1.0
	for b, block := range blocks {
		wrong := 0.0
		for i := range block.Words {
			if block.Wrong[i] || modulationScale.atLeast(weakest[b][i]) < level {
				wrong++
			}
		}
		spare = min(spare, 1-wrong/float64(block.Correctable))
	}
	return spareScale.atLeast(spare)
}
