package spool

import (
	"fmt"
	"math"
	"regexp"
	"strconv"
	"strings"

	"steeltally/geometry"
	"steeltally/templates"
)

// Printer is a print queue with what is loaded in it, under the name that people here
// give it.
type Printer struct {
	Name  string
	Queue string
	Sheet string // the sheet or roll that is loaded
	DPI   geometry.DPI
	Offset
}

// Offset is how a printer prints off its mark: what is meant for x mm from the left
// edge of the paper lands at Right + Across·x, and what is meant for y mm from the top
// at Down + Along·y. The zero Offset is none.
type Offset struct {
	Right  geometry.Millimetre
	Down   geometry.Millimetre
	Across float64 // 0 means 1
	Along  float64 // 0 means 1
}

// None tells whether the printer prints where it should.
func (o Offset) None() bool { return o == Offset{} || o == Offset{Across: 1, Along: 1} }

// String says what the printer does: "prints 0.40 mm too far right, 0.20 mm too high".
func (o Offset) String() string {
	var parts []string
	for _, part := range []struct {
		by          geometry.Millimetre
		above, less string
	}{{o.Right, "too far right", "too far left"}, {o.Down, "too low", "too high"}} {
		switch by := math.Abs(float64(part.by)); {
		case by < shown:
		case part.by > 0:
			parts = append(parts, fmt.Sprintf("%.2f mm %s", by, part.above))
		default:
			parts = append(parts, fmt.Sprintf("%.2f mm %s", by, part.less))
		}
	}
	if across := 100 * (orOne(o.Across) - 1); math.Abs(across) >= shown {
		parts = append(parts, fmt.Sprintf("%+.2f %% across", across))
	}
	if along := 100 * (orOne(o.Along) - 1); math.Abs(along) >= shown {
		parts = append(parts, fmt.Sprintf("%+.2f %% along", along))
	}
	if len(parts) == 0 {
		return "prints on its mark"
	}
	return "prints " + strings.Join(parts, ", ")
}

// shown is the least that two decimals show, of millimetres and of percents.
const shown = 0.005

// Limits of a printer that can be put right: beyond them it was measured wrongly, or
// the page was scaled to fit. Common practice, no source.
const (
	mostOffset geometry.Millimetre = 25
	mostScale  float64             = 0.05 // away from 1
)

// Corrected is the sheet as it must be drawn so that its labels land on the die cut.
// Only the places of the labels change: a tag itself stays in whole dots.
func (o Offset) Corrected(sheet templates.Sheet) templates.Sheet {
	across, along := geometry.Millimetre(orOne(o.Across)), geometry.Millimetre(orOne(o.Along))
	sheet.Left, sheet.Top = (sheet.Left-o.Right)/across, (sheet.Top-o.Down)/along
	sheet.PitchX, sheet.PitchY = sheet.PitchX/across, sheet.PitchY/along
	return sheet
}

func orOne(scale float64) float64 {
	if scale == 0 {
		return 1
	}
	return scale
}

var (
	printerName = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9_-]{0,39}$`)
	queueName   = regexp.MustCompile(`^[^\s/#?'"\\-][^\s/#?'"\\]{0,126}$`)
)

// check refuses a printer that can't be.
func (p Printer) check() error {
	switch {
	case !printerName.MatchString(p.Name):
		return fmt.Errorf("%q is no name for a printer: use letters, digits, - and _", p.Name)
	case !queueName.MatchString(p.Queue):
		return fmt.Errorf("%q is no name of a print queue; lpstat -e lists those there are", p.Queue)
	case p.Sheet == "":
		return fmt.Errorf("printer %s has no sheet", p.Name)
	case p.DPI < 203 || p.DPI > 1200:
		return fmt.Errorf("printer %s: %d dpi; 203 to 1200 are possible", p.Name, p.DPI)
	}
	return p.Offset.check(p.Name)
}

// check refuses offsets and scales beyond what can be put right, NaN among them.
func (o Offset) check(name string) error {
	if !(math.Abs(float64(o.Right)) <= float64(mostOffset) && math.Abs(float64(o.Down)) <= float64(mostOffset)) {
		return fmt.Errorf("printer %s would print %s to the right and %s down of its mark; %s is the most that can be put right",
			name, o.Right, o.Down, mostOffset)
	}
	if !(math.Abs(orOne(o.Across)-1) <= mostScale && math.Abs(orOne(o.Along)-1) <= mostScale) {
		return fmt.Errorf("printer %s would print at %.1f %% across and %.1f %% along; print at actual size, not fitted to the page",
			name, 100*orOne(o.Across), 100*orOne(o.Along))
	}
	return nil
}

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
