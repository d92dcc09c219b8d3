package plot

import (
	"steeltally/geometry"
	"steeltally/labels/drawing"
	"steeltally/labels/lettering"
)

// Curve is a line through points, with its name at its end.
type Curve struct {
	X, Y   []float64
	Grey   drawing.Grey
	Bold   bool
	Dashed bool
	Dots   bool // also the points themselves
	Hollow bool
	Name   string
}

func (c Curve) draw(p *pane) {
	line := drawing.Line{Width: plainLine, Grey: c.Grey}
	if c.Bold {
		line.Width = boldLine
	}
	if c.Dashed {
		line.Dashes = []geometry.Millimetre{1.6, 1}
	}
	for i := range c.X {
		line.Points = append(line.Points, p.at(c.X[i], c.Y[i]))
	}
	p.Add(line)
	if c.Dots {
		for _, point := range line.Points {
			p.Add(drawing.Dot{At: point, Radius: dotRadius, Grey: c.Grey, Hollow: c.Hollow})
		}
	}
	if n := len(line.Points); n > 0 {
		p.name(line.Points[n-1], c.Name, c.Grey)
	}
}

// name writes a name to the right of a point, or left of it where there is no room.
func (p *pane) name(point geometry.Point, name string, grey drawing.Grey) {
	if name == "" {
		return
	}
	text := drawing.Text{At: at(point.X+dotRadius+letterGap, point.Y+textCapital/2), Text: name, Capital: textCapital, Grey: grey}
	if text.At.X+drawing.WidthOf(lettering.Regular, textCapital, name) > p.Width {
		text.At, text.Anchor = at(point.X-letterGap, point.Y-letterGap), drawing.End
	}
	for _, lines := range []millimetre{0, -1, 1, -2, 2} {
		moved := text
		moved.At.Y += lines * (textCapital + letterGap)
		if p.free(moved) {
			p.names = append(p.names, moved)
			p.Add(moved)
			return
		}
	}
}

// free tells whether a name would lie on none of those that are there, and not on the
// line below.
func (p *pane) free(text drawing.Text) bool {
	if text.Start().X < p.right && text.At.Y > p.bottom-letterGap/2 && text.At.Y < p.bottom+textCapital {
		return false
	}
	width := func(t drawing.Text) millimetre { return drawing.WidthOf(t.Style, t.Capital, t.Text) }
	for _, other := range p.names {
		a, b := text.Start(), other.Start()
		beside := a.X > b.X+width(other) || b.X > a.X+width(text)
		if !beside && max(a.Y-b.Y, b.Y-a.Y) < textCapital+letterGap/2 {
			return false
		}
	}
	return true
}

// Steps is a curve that stays level until its next point.
type Steps struct {
	X, Y   []float64
	Grey   drawing.Grey
	Bold   bool
	Dashed bool
	Name   string
}

func (s Steps) draw(p *pane) {
	var c Curve
	for i := range s.X {
		if i > 0 {
			c.X, c.Y = append(c.X, s.X[i]), append(c.Y, s.Y[i-1])
		}
		c.X, c.Y = append(c.X, s.X[i]), append(c.Y, s.Y[i])
	}
	c.Grey, c.Bold, c.Dashed, c.Name = s.Grey, s.Bold, s.Dashed, s.Name
	c.draw(p)
}

// Band is what lies between two curves.
type Band struct {
	X, Low, High []float64
	Grey         drawing.Grey
}

func (b Band) draw(p *pane) {
	area := drawing.Area{Grey: b.Grey}
	for i := range b.X {
		area.Points = append(area.Points, p.at(b.X[i], b.High[i]))
	}
	for i := len(b.X) - 1; i >= 0; i-- {
		area.Points = append(area.Points, p.at(b.X[i], b.Low[i]))
	}
	p.Add(area)
}

// Dots are points by themselves.
type Dots struct {
	X, Y   []float64
	Grey   drawing.Grey
	Hollow bool
	Small  bool
}

func (d Dots) draw(p *pane) {
	radius := dotRadius
	if d.Small {
		radius = smallDot
	}
	for i := range d.X {
		p.Add(drawing.Dot{At: p.at(d.X[i], d.Y[i]), Radius: radius, Grey: d.Grey, Hollow: d.Hollow})
	}
}

// Rule is a level line across the chart, named to the right of it.
type Rule struct {
	At   float64
	Name string
}

func (r Rule) draw(p *pane) {
	y := p.y(r.At)
	p.Add(drawing.Segment(p.left, y, p.right, y, plainLine, drawing.Black))
	if r.Name != "" {
		p.name(at(p.right-dotRadius, y), r.Name, drawing.Black)
	}
}
