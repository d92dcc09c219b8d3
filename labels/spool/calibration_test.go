package spool

import (
	"testing"

	"steeltally/geometry"
	"steeltally/labels"
	"steeltally/templates"
)

// Every sheet and roll has a calibration page on which the four lines stand where the
// person is told that they should.
func TestCalibrationPageOfEverySheet(t *testing.T) {
	library := templates.Embedded()
	if len(library.Sheets()) < 10 {
		t.Fatalf("only %d sheets to try", len(library.Sheets()))
	}
	for _, name := range library.Sheets() {
		sheet, err := library.Sheet(name)
		if err != nil {
			t.Fatal(err)
		}
		template, err := CalibrationPage(sheet)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		for _, dpi := range []geometry.DPI{203, 300, 600} {
			page, err := labels.Layout(template, labels.Content{}, dpi)
			if err != nil {
				t.Errorf("%s at %d dpi: %v", name, dpi, err)
				continue
			}
			if faults := page.Faults(); faults != nil || page.Notices != nil {
				t.Errorf("%s at %d dpi: %q, %q", name, dpi, faults, page.Notices)
			}
			checkMarks(t, name, page, MarksOn(sheet.Width, sheet.Height))
		}
	}
}

func checkMarks(t *testing.T, name string, page labels.Page, m Marks) {
	t.Helper()
	dots := func(l geometry.Millimetre) geometry.Dot { return l.Dots(page.DPI) }
	wanted := map[string]func(geometry.Rect) bool{
		"left": func(r geometry.Rect) bool {
			return r.X == dots(m.Left) && r.Y == dots(m.Top) && r.Bottom() >= dots(m.Bottom)
		},
		"right":  func(r geometry.Rect) bool { return r.X == dots(m.Right) && r.Bottom() >= dots(m.Bottom) },
		"top":    func(r geometry.Rect) bool { return r.Y == dots(m.Top) && r.Right() >= dots(m.Right) },
		"bottom": func(r geometry.Rect) bool { return r.Y == dots(m.Bottom) && r.Right() >= dots(m.Right) },
	}
	for side, is := range wanted {
		there := false
		for _, mark := range page.Marks {
			there = there || is(mark)
		}
		if !there {
			t.Errorf("%s at %d dpi: no %s line at its place", name, page.DPI, side)
		}
	}
}
