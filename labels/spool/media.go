package spool

import (
	"fmt"
	"math"
	"strconv"

	"steeltally/geometry"
)

// Media is the name of a medium of a size in millimetres, as CUPS takes it: the name
// of PWG 5101.1 where the size has one there, else "Custom.70x35mm".
func Media(width, height geometry.Millimetre) string {
	for _, known := range standardMedia() {
		if near(width, known.width) && near(height, known.height) {
			return known.name
		}
	}
	return fmt.Sprintf("Custom.%sx%smm", plainLength(width), plainLength(height))
}

type medium struct {
	name          string
	width, height geometry.Millimetre
}

// standardMedia are the papers of sheets, by their PWG 5101.1 names.
func standardMedia() []medium {
	return []medium{
		{"iso_a4_210x297mm", 210, 297},
		{"iso_a6_105x148mm", 105, 148},
		{"na_letter_8.5x11in", geometry.Inch(8.5).Millimetres(), geometry.Inch(11).Millimetres()},
	}
}

// near allows for sizes that were rounded to whole tenths.
func near(a, b geometry.Millimetre) bool { return math.Abs(float64(a-b)) < 0.3 }

// plainLength writes a length in millimetres with no more decimals than it needs, at
// most two.
func plainLength(l geometry.Millimetre) string {
	return strconv.FormatFloat(math.Round(float64(l)*100)/100, 'f', -1, 64)
}
