package plot

import (
	"math"

	"steeltally/labels/drawing"
	"steeltally/labels/lettering"
)

// Cell is what one row shows in one column: a text, or a span with its middle.
type Cell struct {
	Text              string
	Low, Middle, High float64
	Span              bool
	Stands            bool // stands out
}

// Column is one column of a picture of rows.
type Column struct {
	Title  string
	Width  millimetre
	Right  bool // text at its right edge
	Spans  bool
	Marked bool    // with a thin upright line
	Mark   float64 // at this value
}

const rowHeight millimetre = 4.1

// Rows is a table of which some columns are pictures: one row a player.
type Rows struct {
	Title   string
	Columns []Column
	Cells   [][]Cell
}

// Draw draws the table; it is as high as it needs to be.
func (r Rows) Draw(width millimetre) drawing.Drawing {
	d := drawing.Drawing{Width: width, Height: headRoom + 2*rowHeight + rowHeight*millimetre(len(r.Cells))}
	d.Add(drawing.Text{At: at(0, headCapital), Text: drawing.Shorten(lettering.Bold, headCapital, width, r.Title), Capital: headCapital, Style: lettering.Bold})
	x := millimetre(0)
	for i, column := range r.Columns {
		r.column(&d, i, column, x)
		x += column.Width
	}
	y := headRoom + rowHeight
	d.Add(drawing.Segment(0, y, x, y, plainLine, drawing.Black))
	for i := range r.Cells {
		line := y + rowHeight*millimetre(i+1)
		d.Add(drawing.Segment(0, line, x, line, thinLine/2, drawing.Light))
	}
	return d
}

// column draws one column with its head and, for spans, its scale below.
func (r Rows) column(d *drawing.Drawing, number int, c Column, x millimetre) {
	scale := r.scale(number, c)
	p := &pane{Drawing: d, chart: Chart{X: scale}, left: x + letterGap, top: headRoom + rowHeight, right: x + c.Width - 2*letterGap, bottom: d.Height}
	p.line(c.Title, lettering.Bold, c, p.top-letterGap)
	if c.Spans {
		p.scale(c, len(r.Cells))
	}
	for i, row := range r.Cells {
		if number < len(row) {
			p.cell(row[number], c, p.top+rowHeight*(millimetre(i)+0.5))
		}
	}
}

// scale is the axis that holds a column's middles; spans may run off it.
func (r Rows) scale(number int, c Column) Axis {
	var values []float64
	if c.Marked {
		values = append(values, c.Mark)
	}
	for _, row := range r.Cells {
		if number < len(row) && row[number].Span {
			values = append(values, row[number].Middle)
		}
	}
	if len(values) == 0 {
		return Axis{High: 1}
	}
	low, high := values[0], values[0]
	for _, v := range values {
		low, high = math.Min(low, v), math.Max(high, v)
	}
	slack := 0.35 * (high - low)
	return Numbers("", low-slack, high+slack)
}

// scale writes the first and last number of a column's scale below it, and its mark.
func (p *pane) scale(c Column, rows int) {
	bottom := p.top + rowHeight*millimetre(rows)
	if ticks := p.chart.X.Ticks; len(ticks) > 1 {
		first, last := ticks[0], ticks[len(ticks)-1]
		p.Add(
			drawing.Text{At: at(p.x(first.At), bottom+rowHeight-letterGap), Text: first.Label, Capital: textCapital, Grey: drawing.Dark},
			drawing.Text{At: at(p.x(last.At), bottom+rowHeight-letterGap), Text: last.Label, Capital: textCapital, Grey: drawing.Dark, Anchor: drawing.End})
	}
	if c.Marked {
		x := p.x(c.Mark)
		p.Add(drawing.Segment(x, p.top, x, bottom, thinLine, drawing.Dark))
	}
}

// line writes a text in a column, at its left or right edge.
func (p *pane) line(words string, style lettering.Style, c Column, baseline millimetre) {
	text := drawing.Text{
		At: at(p.left-letterGap, baseline), Capital: textCapital, Style: style,
		Text: drawing.Shorten(style, textCapital, c.Width-letterGap, words),
	}
	if c.Right {
		text.At.X, text.Anchor = p.right, drawing.End
	}
	p.Add(text)
}

func (p *pane) cell(cell Cell, c Column, middle millimetre) {
	if !cell.Span {
		p.line(cell.Text, lettering.Regular, c, middle+textCapital/2)
		return
	}
	width := plainLine
	if cell.Stands {
		width = boldLine
	}
	p.Add(drawing.Segment(p.x(cell.Low), middle, p.x(cell.High), middle, width, drawing.Black),
		drawing.Dot{At: at(p.x(cell.Middle), middle), Radius: dotRadius, Hollow: !cell.Stands})
}
