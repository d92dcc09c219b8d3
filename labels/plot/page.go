package plot

import (
	"steeltally/labels/drawing"
	"steeltally/labels/lettering"
)

// Page is a sheet of paper that fills from the top.
type Page struct {
	drawing.Drawing
	y millimetre // the next thing's top
}

const (
	pageMargin   millimetre = 12
	titleCapital millimetre = 5
	noteCapital  millimetre = 2.3
	noteLine     millimetre = 4.2
	pageGap      millimetre = 4
)

// NewPage starts a page with a title and, at its foot, what it is from.
func NewPage(width, height millimetre, title, foot string) *Page {
	p := &Page{Drawing: drawing.Drawing{Width: width, Height: height}, y: pageMargin}
	p.Add(
		drawing.Text{At: at(pageMargin, p.y+titleCapital), Text: drawing.Shorten(lettering.Bold, titleCapital, p.Inside(), title), Capital: titleCapital, Style: lettering.Bold},
		drawing.Text{At: at(pageMargin, height-pageMargin/2), Text: drawing.Shorten(lettering.Regular, noteCapital, p.Inside(), foot), Capital: noteCapital, Grey: drawing.Dark})
	p.y += titleCapital + pageGap
	return p
}

// Inside is the width between the margins.
func (p *Page) Inside() millimetre { return p.Width - 2*pageMargin }

// RowsThatFit is how many rows of a table fit above a height that is kept free.
func (p *Page) RowsThatFit(free millimetre) int {
	room := p.Height - pageMargin - p.y - free - headRoom - 3*rowHeight
	return max(0, int(room/rowHeight))
}

// Note writes a paragraph.
func (p *Page) Note(text string) {
	for _, line := range drawing.Break(lettering.Regular, noteCapital, p.Inside(), text) {
		p.Add(drawing.Text{At: at(pageMargin, p.y+noteCapital), Text: line, Capital: noteCapital})
		p.y += noteLine
	}
}

// Skip leaves a gap.
func (p *Page) Skip() { p.y += pageGap / 2 }

// Row places drawings beside each other, from the left margin on.
func (p *Page) Row(pictures ...drawing.Drawing) {
	x, height := pageMargin, millimetre(0)
	for _, picture := range pictures {
		p.Place(picture, at(x, p.y))
		x += picture.Width + pageGap
		height = max(height, picture.Height)
	}
	p.y += height + pageGap
}

// Part is the width of one of so many drawings beside each other.
func (p *Page) Part(of int) millimetre {
	return (p.Inside() - pageGap*millimetre(of-1)) / millimetre(of)
}
