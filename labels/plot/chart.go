package plot

import (
	"steeltally/geometry"
	"steeltally/labels/drawing"
	"steeltally/labels/lettering"
)

type millimetre = geometry.Millimetre

// Sizes in mm: letters by their capitals.
const (
	headCapital millimetre = 2.7
	textCapital millimetre = 2.1
	headRoom    millimetre = 9
	leftRoom    millimetre = 11
	bottomRoom  millimetre = 9
	rightRoom   millimetre = 3
	thinLine    millimetre = 0.15
	plainLine   millimetre = 0.3
	boldLine    millimetre = 0.6
	dotRadius   millimetre = 0.75
	smallDot    millimetre = 0.3
	tickLength  millimetre = 1
	letterGap   millimetre = 1
)

// Chart is a picture with two axes.
type Chart struct {
	Title string
	X, Y  Axis
	Right millimetre // room for names at the right, besides the usual
	Empty string     // what to say where there is nothing to draw
	Layer []Layer
}

// Layer is something drawn in a chart, the first at the bottom.
type Layer interface{ draw(p *pane) }

// pane is the inside of a chart.
type pane struct {
	*drawing.Drawing
	chart                    Chart
	left, top, right, bottom millimetre
	names                    []drawing.Text // of curves, so that none lies on another
}

// Draw draws the chart in a size.
func (c Chart) Draw(width, height millimetre) drawing.Drawing {
	d := drawing.Drawing{Width: width, Height: height}
	d.Add(drawing.Text{At: at(0, headCapital), Text: drawing.Shorten(lettering.Bold, headCapital, width, c.Title), Capital: headCapital, Style: lettering.Bold})
	if len(c.Layer) == 0 {
		d.Add(drawing.Text{At: at(0, headRoom+textCapital), Text: c.Empty, Capital: textCapital})
		return d
	}
	p := &pane{Drawing: &d, chart: c, left: leftRoom, top: headRoom, right: width - rightRoom - c.Right, bottom: height - bottomRoom}
	p.axes()
	for _, layer := range c.Layer {
		layer.draw(p)
	}
	return d
}

func at(x, y millimetre) geometry.Point { return geometry.Point{X: x, Y: y} }

// x and y are places on the paper; what lies outside is put on the edge.
func (p *pane) x(v float64) millimetre { return place(p.chart.X, v, p.left, p.right) }
func (p *pane) y(v float64) millimetre { return place(p.chart.Y, v, p.bottom, p.top) }

func (p *pane) at(x, y float64) geometry.Point { return at(p.x(x), p.y(y)) }

func place(a Axis, v float64, low, high millimetre) millimetre {
	share := (v - a.Low) / (a.High - a.Low)
	return low + (high-low)*millimetre(min(max(share, 0), 1))
}

// axes draws the frame: lines at the left and below, ticks with their names.
func (p *pane) axes() {
	p.Add(
		drawing.Segment(p.left, p.bottom, p.right, p.bottom, thinLine, drawing.Black),
		drawing.Segment(p.left, p.top, p.left, p.bottom, thinLine, drawing.Black))
	free := p.left - leftRoom // where the last name below ended
	for _, tick := range p.chart.X.Ticks {
		x, width := p.x(tick.At), drawing.WidthOf(lettering.Regular, textCapital, tick.Label)
		p.Add(drawing.Segment(x, p.bottom, x, p.bottom+tickLength, thinLine, drawing.Black))
		if x-width/2 > free {
			p.Add(drawing.Text{At: at(x, p.bottom+tickLength+letterGap+textCapital), Text: tick.Label, Capital: textCapital, Anchor: drawing.Middle})
			free = x + width/2 + letterGap
		}
	}
	for _, tick := range p.chart.Y.Ticks {
		y := p.y(tick.At)
		p.Add(
			drawing.Segment(p.left-tickLength, y, p.left, y, thinLine, drawing.Black),
			drawing.Text{At: at(p.left-tickLength-letterGap, y+textCapital/2), Text: tick.Label, Capital: textCapital, Anchor: drawing.End})
	}
	p.titles()
}

// titles writes what the axes are: below at the right end, and above the left one.
func (p *pane) titles() {
	p.Add(
		drawing.Text{At: at(p.right, p.bottom+bottomRoom-letterGap/2), Text: p.chart.X.Title, Capital: textCapital, Anchor: drawing.End, Grey: drawing.Dark},
		drawing.Text{At: at(p.left-tickLength, p.top-2*letterGap), Text: p.chart.Y.Title, Capital: textCapital, Grey: drawing.Dark})
}
