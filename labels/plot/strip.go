package plot

import (
	"time"

	"steeltally/labels/drawing"
	"steeltally/labels/lettering"
)

// Use is one set on one pair.
type Use struct {
	From, Until time.Time
	Name        string // the set's letter or place
	Broken      bool   // ended because something broke
}

const (
	stripRowHeight millimetre = 5.4
	stripBar       millimetre = 4
)

// Strip draws when sets went on and came off: bars in turn, a cross where one broke.
// Sets that are in turn on two pairs overlap, and lie below each other.
func Strip(title string, uses []Use, until time.Time, width millimetre) drawing.Drawing {
	rows, from := lanes(uses), until
	for _, use := range uses {
		if use.From.Before(from) {
			from = use.From
		}
	}
	height := headRoom + stripRowHeight*millimetre(max(1, len(rows))) + bottomRoom
	d := drawing.Drawing{Width: width, Height: height}
	d.Add(drawing.Text{At: at(0, headCapital), Text: drawing.Shorten(lettering.Bold, headCapital, width, title), Capital: headCapital, Style: lettering.Bold})
	p := &pane{Drawing: &d, chart: Chart{X: Dates("", from, until)}, left: leftRoom, top: headRoom, right: width - rightRoom, bottom: height - bottomRoom}
	for i, row := range rows {
		p.bars(row, p.top+stripRowHeight*(millimetre(i)+0.5))
	}
	for i, row := range rows {
		p.crosses(row, p.top+stripRowHeight*(millimetre(i)+0.5))
	}
	p.axes()
	return d
}

// lanes puts each set in the first row in which it overlaps no other by more than a day.
func lanes(uses []Use) [][]Use {
	var rows [][]Use
	for _, use := range uses {
		placed := false
		for i, row := range rows {
			if !use.From.Before(row[len(row)-1].Until.Add(-24 * time.Hour)) {
				rows[i], placed = append(row, use), true
				break
			}
		}
		if !placed {
			rows = append(rows, []Use{use})
		}
	}
	return rows
}

func (p *pane) bars(row []Use, middle millimetre) {
	for i, use := range row {
		from, until := p.x(DayValue(use.From)), p.x(DayValue(use.Until))
		grey := drawing.Light
		if i%2 == 1 {
			grey = drawing.Pale
		}
		p.Add(drawing.Rectangle(from, middle-stripBar/2, max(until-from, thinLine), stripBar, grey))
		if drawing.WidthOf(lettering.Regular, textCapital, use.Name)+letterGap < until-from {
			p.Add(drawing.Text{At: at((from+until)/2, middle+textCapital/2), Text: use.Name, Capital: textCapital, Anchor: drawing.Middle})
		}
	}
}

func (p *pane) crosses(row []Use, middle millimetre) {
	for _, use := range row {
		if use.Broken {
			p.cross(p.x(DayValue(use.Until)), middle)
		}
	}
}

// cross marks where something broke.
func (p *pane) cross(x, y millimetre) {
	const arm millimetre = 1.3
	p.Add(drawing.Segment(x-arm, y-arm, x+arm, y+arm, boldLine, drawing.Black),
		drawing.Segment(x-arm, y+arm, x+arm, y-arm, boldLine, drawing.Black))
}
