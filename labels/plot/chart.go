// Package plot draws what steel went through and what is to be expected of it, from
// plain series: for the PDF and for a screen alike, to be read at arm's length in black
// and white print. Lines carry their names where they end; no colour, no legend apart.
package plot

import (
	"fmt"
	"math"
	"time"

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

// Axis is one side of a chart.
type Axis struct {
	Title     string
	Low, High float64
	Ticks     []Tick
}

// Tick is a named place on an axis.
type Tick struct {
	At    float64
	Label string
}

// mostTicks is how many numbers an axis carries at most.
const mostTicks = 6

// Numbers is an axis over some values, with round numbers on it.
func Numbers(title string, values ...float64) Axis {
	low, high := math.Inf(1), math.Inf(-1)
	for _, v := range values {
		if !math.IsNaN(v) && !math.IsInf(v, 0) {
			low, high = math.Min(low, v), math.Max(high, v)
		}
	}
	if low > high {
		low, high = 0, 1
	}
	if high-low < 1e-9 {
		low, high = low-0.5, high+0.5
	}
	step := roundStep((high - low) / (mostTicks - 1))
	a := Axis{Title: title, Low: step * math.Floor(low/step+1e-9), High: step * math.Ceil(high/step-1e-9)}
	decimals := max(0, int(math.Ceil(-math.Log10(step)-1e-9)))
	for n := math.Round(a.Low / step); n*step <= a.High+step/2; n++ {
		a.Ticks = append(a.Ticks, Tick{n * step, fmt.Sprintf("%.*f", decimals, n*step)})
	}
	return a
}

// roundStep is the next larger 1, 2 or 5 times a power of ten.
func roundStep(least float64) float64 {
	power := math.Pow(10, math.Floor(math.Log10(least)))
	for _, m := range []float64{1, 2, 5, 10} {
		if m*power >= least*(1-1e-9) {
			return m * power
		}
	}
	return 10 * power
}

// Dates is an axis over some days, with months or weeks on it.
func Dates(title string, from, until time.Time) Axis {
	if !until.After(from) {
		until = from.AddDate(0, 0, 1)
	}
	a := Axis{Title: title, Low: DayValue(from), High: DayValue(until)}
	months := max(1, int(math.Ceil((a.High-a.Low)/30.4/8)))
	if a.High-a.Low < 45 {
		for t := from; !t.After(until); t = t.AddDate(0, 0, 7) {
			a.Ticks = append(a.Ticks, Tick{DayValue(t), t.Format("2 Jan")})
		}
		return a
	}
	first := time.Date(from.Year(), from.Month(), 1, 0, 0, 0, 0, from.Location())
	for t := first; !t.After(until); t = t.AddDate(0, months, 0) {
		if v := DayValue(t); v >= a.Low {
			a.Ticks = append(a.Ticks, Tick{v, monthLabel(t)})
		}
	}
	return a
}

// monthLabel names a month; January has its year with it.
func monthLabel(t time.Time) string {
	if t.Month() == time.January {
		return t.Format("Jan 2006")
	}
	return t.Format("Jan")
}

// DayValue is a time on a date axis, in days.
func DayValue(t time.Time) float64 { return float64(t.Unix()) / (24 * 60 * 60) }
