package grade

import (
	"math"

	"steeltally/labels/reader/modules"
	"steeltally/labels/reader/picture"
)

// spots is the reflectance of each module through a round aperture, those of the
// quiet zone too. What lies outside the picture is left out.
type spots struct {
	columns, rows int
	inside        map[modules.Cell]float64
	quiet         []float64
}

// spots measures the modules of a place.
func (s surface) spots(p Place) spots {
	lens, margin := p.lens(), p.Symbology.QuietZone()
	found := spots{columns: p.Columns, rows: p.Rows, inside: map[modules.Cell]float64{}}
	for row := -margin; row < p.Rows+margin; row++ {
		for column := -margin; column < p.Columns+margin; column++ {
			u, v := float64(column)+0.5, float64(row)+0.5
			within := column >= 0 && row >= 0 && column < p.Columns && row < p.Rows
			switch {
			case within:
				found.inside[modules.Cell{Column: column, Row: row}] = s.spot(lens, u, v)
			case s.holds(lens.At(u, v)):
				found.quiet = append(found.quiet, s.spot(lens, u, v))
			}
		}
	}
	return found
}

// spotSteps is how many points across the aperture is looked at in.
const spotSteps = 7

// spot is the mean reflectance through the aperture over the point (u, v) of the
// symbol, in modules.
func (s surface) spot(lens picture.Homography, u, v float64) float64 {
	sum, points := 0.0, 0.0
	for i := range spotSteps {
		for k := range spotSteps {
			x, y := float64(2*i+1-spotSteps)/spotSteps, float64(2*k+1-spotSteps)/spotSteps
			if math.Hypot(x, y) <= 1 {
				sum += s.at(lens.At(u+x*apertureOfAModule/2, v+y*apertureOfAModule/2))
				points++
			}
		}
	}
	return sum / points
}

// extremes is the lowest and the highest reflectance.
func (s spots) extremes() (darkest, lightest float64) {
	darkest, lightest = 1, 0
	for _, v := range s.inside {
		darkest, lightest = min(darkest, v), max(lightest, v)
	}
	for _, v := range s.quiet {
		darkest, lightest = min(darkest, v), max(lightest, v)
	}
	return darkest, lightest
}

// contrast is the difference of the extremes.
func (s spots) contrast() float64 {
	darkest, lightest := s.extremes()
	return lightest - darkest
}

// threshold is halfway between the extremes.
func (s spots) threshold() float64 {
	darkest, lightest := s.extremes()
	return (darkest + lightest) / 2
}

// bits tells dark from light by the one threshold.
func (s spots) bits() *modules.Matrix {
	m, threshold := modules.NewMatrix(s.columns, s.rows), s.threshold()
	for cell, v := range s.inside {
		m.Set(cell, v < threshold)
	}
	return m
}

// darkQuiet is the share of the quiet zone's modules that is dark.
func (s spots) darkQuiet() float64 {
	if len(s.quiet) == 0 {
		return 0
	}
	dark, threshold := 0, s.threshold()
	for _, v := range s.quiet {
		if v < threshold {
			dark++
		}
	}
	return float64(dark) / float64(len(s.quiet))
}

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
