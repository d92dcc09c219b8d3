package spool

import (
	"errors"
	"fmt"
	"strings"

	"steeltally/geometry"
	"steeltally/templates"
)

// Marks are the four lines of a calibration page, where they should be, in millimetres
// from the paper's left and top edges.
type Marks struct {
	Left, Right geometry.Millimetre
	Top, Bottom geometry.Millimetre
}

// MarksOn are the marks of a page of a size: whole millimetres, an eighth of the page
// away from its edges, and no more than 20 mm.
func MarksOn(width, height geometry.Millimetre) Marks {
	left, top := inset(width), inset(height)
	return Marks{Left: left, Right: whole(width) - left, Top: top, Bottom: whole(height) - top}
}

func inset(length geometry.Millimetre) geometry.Millimetre { return max(1, min(20, whole(length/8))) }

func whole(length geometry.Millimetre) geometry.Millimetre { return geometry.Millimetre(int(length)) }

// Measured is what a ruler says of a printed calibration page.
type Measured struct {
	Left   geometry.Millimetre // from the paper's left edge to the left line
	Top    geometry.Millimetre // from the paper's top edge to the top line
	Across geometry.Millimetre // from the left to the right line
	Along  geometry.Millimetre // from the top to the bottom line
}

// Offset is what a printer does that printed the marks where they were measured.
func (m Marks) Offset(is Measured) (Offset, error) {
	if is.Across == 0 || is.Along == 0 {
		return Offset{}, errors.New("measure how far the lines are from each other, across and along")
	}
	o := Offset{Across: float64(is.Across / (m.Right - m.Left)), Along: float64(is.Along / (m.Bottom - m.Top))}
	o.Right = is.Left - geometry.Millimetre(o.Across)*m.Left
	o.Down = is.Top - geometry.Millimetre(o.Along)*m.Top
	return o, o.check("on that measure")
}

// CalibrationPage is a page with the marks for a sheet, with a millimetre scale along
// each line.
func CalibrationPage(sheet *templates.Sheet) (*templates.Template, error) {
	m := MarksOn(sheet.Width, sheet.Height)
	page := &page{width: sheet.Width, height: sheet.Height}
	fmt.Fprintf(&page.toml, "title = \"calibration\"\nsize = [%g, %g]\n", float64(sheet.Width), float64(sheet.Height))
	page.frame(m)
	page.scales(m)
	page.words(m)
	return templates.Parse("calibration", []byte(page.toml.String()))
}

// page is a calibration page being written as a template.
type page struct {
	toml          strings.Builder
	width, height geometry.Millimetre
}

func (p *page) line(x1, y1, x2, y2 geometry.Millimetre) {
	fmt.Fprintf(&p.toml, "[[line]]\nfrom = [%g, %g]\nto = [%g, %g]\n", float64(x1), float64(y1), float64(x2), float64(y2))
}

// frame draws the four lines.
func (p *page) frame(m Marks) {
	p.line(m.Left, m.Top, m.Right, m.Top)
	p.line(m.Left, m.Bottom, m.Right, m.Bottom)
	p.line(m.Left, m.Top, m.Left, m.Bottom)
	p.line(m.Right, m.Top, m.Right, m.Bottom)
}

// scales draws a tick each millimetre inside the top and the left line, longer ones
// each five, so that a page is a ruler to hold against another one.
func (p *page) scales(m Marks) {
	room := min(m.Right-m.Left, m.Bottom-m.Top) / 2
	for x := m.Left + 1; x < m.Right; x++ {
		p.line(x, m.Top, x, m.Top+min(tickLength(x-m.Left), room))
	}
	for y := m.Top + 1; y < m.Bottom; y++ {
		p.line(m.Left, y, m.Left+min(tickLength(y-m.Top), room), y)
	}
}

func tickLength(at geometry.Millimetre) geometry.Millimetre {
	switch int(at) % 10 {
	case 0:
		return 3
	case 5:
		return 2
	}
	return 1
}

// words says on the page what to measure, where there is room for it; the terminal
// says it too. Else they say which way round the page is.
func (p *page) words(m Marks) {
	if p.width < 60 || p.height < 30 {
		p.text("TOP", templates.Box{X: m.Right - 5, Y: m.Bottom - 2, Width: 4.7, Height: 1.8}, 1.3)
		return
	}
	box := templates.Box{X: m.Left + 5, Y: m.Top + 4, Width: m.Right - m.Left - 5.3, Height: m.Bottom - m.Top - 4.3}
	p.text(strings.Join(append([]string{"CALIBRATION"}, m.Ask()...), `\n`), box, 2.2)
}

func (p *page) text(content string, box templates.Box, height float64) {
	fmt.Fprintf(&p.toml, "[[text]]\ncontent = \"%s\"\nbox = [%g, %g, %g, %g]\nheight = %g\nleast = 1.3\nfit = \"cut\"\nvalign = \"top\"\n",
		content, float64(box.X), float64(box.Y), float64(box.Width), float64(box.Height), height)
}

// Ask says what is to be measured, line by line.
func (m Marks) Ask() []string {
	return []string{
		fmt.Sprintf("left edge of the paper to the left line: %g mm", float64(m.Left)),
		fmt.Sprintf("top edge of the paper to the top line: %g mm", float64(m.Top)),
		fmt.Sprintf("left line to right line: %g mm", float64(m.Right-m.Left)),
		fmt.Sprintf("top line to bottom line: %g mm", float64(m.Bottom-m.Top)),
	}
}
