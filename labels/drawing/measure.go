package drawing

import (
	"steeltally/geometry"
	"steeltally/labels/lettering"
)

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
