package spool

import (
	"math"
	"strings"
	"testing"

	"steeltally/geometry"
	"steeltally/templates"
)

// press is a printer that puts what is meant for a place somewhere else.
type press struct{ Offset }

func (p press) lands(x, y geometry.Millimetre) (geometry.Millimetre, geometry.Millimetre) {
	return p.Right + geometry.Millimetre(p.Across)*x, p.Down + geometry.Millimetre(p.Along)*y
}

// A printer that was calibrated from its own page puts every label of every sheet onto
// its die cut.
func TestCalibrationPutsLabelsOnTheirDieCut(t *testing.T) {
	presses := []press{
		{Offset{0.6, -0.4, 1, 1}},
		{Offset{0, 0, 0.996, 1.004}},
		{Offset{-1.2, 2.1, 1.003, 0.991}},
	}
	library := templates.Embedded()
	if len(library.Sheets()) < 10 {
		t.Fatalf("only %d sheets to try", len(library.Sheets()))
	}
	for _, name := range library.Sheets() {
		sheet, err := library.Sheet(name)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range presses {
			offset := calibrated(t, p, sheet)
			corrected := offset.Corrected(*sheet)
			for cell := range sheet.Cells() {
				x, y := p.lands(corrected.Cell(cell).X, corrected.Cell(cell).Y)
				want := sheet.Cell(cell)
				if math.Abs(float64(x-want.X)) > 1e-9 || math.Abs(float64(y-want.Y)) > 1e-9 {
					t.Errorf("%s, label %d: lands at %.3f, %.3f; the die cut is at %.3f, %.3f", name, cell+1, x, y, want.X, want.Y)
				}
			}
		}
	}
}

// calibrated prints the marks of a sheet, measures them and comes to an offset.
func calibrated(t *testing.T, p press, sheet *templates.Sheet) Offset {
	t.Helper()
	marks := MarksOn(sheet.Width, sheet.Height)
	left, top := p.lands(marks.Left, marks.Top)
	right, bottom := p.lands(marks.Right, marks.Bottom)
	offset, err := marks.Offset(Measured{Left: left, Top: top, Across: right - left, Along: bottom - top})
	if err != nil {
		t.Fatal(err)
	}
	return offset
}

// What can't be put right is refused: a page that was fitted to the paper, a slip of
// the ruler, nothing at all.
func TestOffsetRefusesWhatCannotBeRight(t *testing.T) {
	marks := MarksOn(210, 297)
	right := Measured{marks.Left, marks.Top, marks.Right - marks.Left, marks.Bottom - marks.Top}
	if offset, err := marks.Offset(right); err != nil || !offset.None() {
		t.Errorf("a printer on its mark: %+v, %v", offset, err)
	}
	wrong := map[string]func(*Measured){
		"fitted to the page": func(m *Measured) { m.Across, m.Along = m.Across*0.94, m.Along*0.94 },
		"inches":             func(m *Measured) { m.Across /= 25.4 },
		"far off":            func(m *Measured) { m.Left += 40 },
		"nothing":            func(m *Measured) { *m = Measured{} },
		"no number":          func(m *Measured) { m.Top = geometry.Millimetre(math.NaN()) },
	}
	for name, spoil := range wrong {
		measured := right
		spoil(&measured)
		if _, err := marks.Offset(measured); err == nil {
			t.Errorf("%s: accepted", name)
		}
	}
}

func TestOffsetInWords(t *testing.T) {
	if said := (Offset{0.4, -0.2, 0.998, 1}).String(); said != "prints 0.40 mm too far right, 0.20 mm too high, -0.20 % across" {
		t.Error(said)
	}
	if said := (Offset{}).String(); !strings.Contains(said, "on its mark") {
		t.Error(said)
	}
}
