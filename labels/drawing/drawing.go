// Package drawing describes pictures of lines, areas and letters in millimetres, once
// for the PDF and for the screen. Everything is black, white or grey: a picture has to
// be read in black and white print.
package drawing

import (
	"slices"

	"steeltally/geometry"
	"steeltally/labels/lettering"
)

// Drawing is a picture, in mm from its top left corner; X grows to the right and Y
// downwards. What comes later lies on what comes before.
type Drawing struct {
	Width, Height geometry.Millimetre
	Shapes        []Shape
}

// Shape is one of Line, Area, Dot and Text.
type Shape interface{ moved(by geometry.Point) Shape }

// Grey is how light something is: 0 is black, 1 is white.
type Grey float64

// The greys that a printer keeps apart.
const (
	Black Grey = 0
	Dark  Grey = 0.35
	Light Grey = 0.7
	Pale  Grey = 0.84
	White Grey = 1
)

// Line is a stroke through some points.
type Line struct {
	Points []geometry.Point
	Width  geometry.Millimetre
	Grey   Grey
	Dashes []geometry.Millimetre // dash, gap, … ; none: solid
}

// Area is a filled polygon.
type Area struct {
	Points []geometry.Point
	Grey   Grey
}

// Dot is a disc or, where it is hollow, a ring with a white middle.
type Dot struct {
	At     geometry.Point
	Radius geometry.Millimetre
	Grey   Grey
	Hollow bool
}

// Anchor says which part of a text stands at its place.
type Anchor int

// The anchors.
const (
	Start Anchor = iota
	Middle
	End
)

// Text is a line of letters on a baseline. Capital is the height of its capitals.
type Text struct {
	At      geometry.Point
	Text    string
	Capital geometry.Millimetre
	Style   lettering.Style
	Grey    Grey
	Anchor  Anchor
	Upright bool // turned a quarter: it runs upwards
}

func (l Line) moved(by geometry.Point) Shape {
	l.Points = movedAll(l.Points, by)
	return l
}

func (a Area) moved(by geometry.Point) Shape {
	a.Points = movedAll(a.Points, by)
	return a
}

func (d Dot) moved(by geometry.Point) Shape {
	d.At = moved(d.At, by)
	return d
}

func (t Text) moved(by geometry.Point) Shape {
	t.At = moved(t.At, by)
	return t
}

func moved(p, by geometry.Point) geometry.Point {
	return geometry.Point{X: p.X + by.X, Y: p.Y + by.Y}
}

func movedAll(points []geometry.Point, by geometry.Point) []geometry.Point {
	list := slices.Clone(points)
	for i := range list {
		list[i] = moved(list[i], by)
	}
	return list
}

// Add puts shapes on top.
func (d *Drawing) Add(shapes ...Shape) { d.Shapes = append(d.Shapes, shapes...) }

// Place puts another drawing on top, its top left corner at a point.
func (d *Drawing) Place(other Drawing, at geometry.Point) {
	for _, shape := range other.Shapes {
		d.Shapes = append(d.Shapes, shape.moved(at))
	}
}

// Rectangle is a filled rectangle.
func Rectangle(x, y, width, height geometry.Millimetre, grey Grey) Area {
	return Area{[]geometry.Point{{X: x, Y: y}, {X: x + width, Y: y}, {X: x + width, Y: y + height}, {X: x, Y: y + height}}, grey}
}

// Segment is a straight line.
func Segment(x1, y1, x2, y2, width geometry.Millimetre, grey Grey) Line {
	return Line{Points: []geometry.Point{{X: x1, Y: y1}, {X: x2, Y: y2}}, Width: width, Grey: grey}
}

// Em is the size of the em at which capitals have a height.
func Em(style lettering.Style, capital geometry.Millimetre) geometry.Millimetre {
	return capital * lettering.Em / geometry.Millimetre(lettering.Of(style).CapHeight)
}

// Clean is a text of which every letter can be drawn: what the face lacks becomes a box.
func Clean(style lettering.Style, text string) string {
	clean, _ := lettering.Of(style).Clean(text)
	return clean
}

// WidthOf is how wide a text is drawn.
func WidthOf(style lettering.Style, capital geometry.Millimetre, text string) geometry.Millimetre {
	extent := lettering.Of(style).Measure(Clean(style, text))
	return geometry.Millimetre(extent.Advance) * Em(style, capital) / lettering.Em
}

// Shorten cuts a text so that it is at most so wide, and shows that it did.
func Shorten(style lettering.Style, capital, width geometry.Millimetre, text string) string {
	units := int(width * lettering.Em / Em(style, capital))
	return lettering.Of(style).Shorten(Clean(style, text), units)
}

// Break breaks a text into lines that are at most so wide.
func Break(style lettering.Style, capital, width geometry.Millimetre, text string) []string {
	units := int(width * lettering.Em / Em(style, capital))
	return lettering.Of(style).Break(Clean(style, text), units)
}

// Start is where the text's pen starts: its left end, of upright text the lower one.
func (t Text) Start() geometry.Point {
	shift := geometry.Millimetre(0)
	switch t.Anchor {
	case Middle:
		shift = WidthOf(t.Style, t.Capital, t.Text) / 2
	case End:
		shift = WidthOf(t.Style, t.Capital, t.Text)
	}
	if t.Upright {
		return geometry.Point{X: t.At.X, Y: t.At.Y + shift}
	}
	return geometry.Point{X: t.At.X - shift, Y: t.At.Y}
}
