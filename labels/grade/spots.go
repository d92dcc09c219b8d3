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
