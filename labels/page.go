// Package labels lays out tags: a template and its content become a page of
// rectangles, lines of text and symbols in whole printer dots, which any renderer
// draws dot for dot.
package labels

import (
	"steeltally/geometry"
	"steeltally/labels/lettering"
	"steeltally/labels/symbol"
	"steeltally/templates"
)

// Content is what a tag can show.
type Content = templates.Content

// Page is one tag, or a sheet of tags, in dots from its top left corner.
type Page struct {
	Name          string
	DPI           geometry.DPI
	Width, Height geometry.Dot
	Ink           []geometry.Rect // black: bars and bands
	Texts         []TextRun
	Symbols       []PlacedSymbol
	Marks         []geometry.Rect // black: guides for scissors, folding and punching
	Holes         []geometry.Rect // squares around the holes; nothing but Marks in them
	Notices       []string        // what could not be shown as given, in words
}

// TextRun is a line of text. Its pen starts at X on the baseline; turned upside down,
// it runs to the left from there.
type TextRun struct {
	Text        string // only letters that the face has
	Style       lettering.Style
	Em          geometry.Dot // size of the em
	X, Baseline geometry.Dot
	White       bool                // on a black band
	Turned      bool                // upside down
	Ink         geometry.Rect       // bounds of what is drawn
	Capital     geometry.Millimetre // height of its capitals
	Least       geometry.Millimetre // least height that the template allows for them
}

// PlacedSymbol is a symbol on a page.
type PlacedSymbol struct {
	Choice symbol.Choice
	Area   geometry.Rect // quiet zone included
}

// Modules is the part of the area that holds the modules.
func (p PlacedSymbol) Modules() geometry.Rect {
	sides, above := p.Choice.Symbol.Quiet()
	dots := p.Choice.Dots
	return geometry.Rect{
		X: p.Area.X + geometry.Dot(sides)*dots, Y: p.Area.Y + geometry.Dot(above)*dots,
		Width:  p.Area.Width - 2*geometry.Dot(sides)*dots,
		Height: p.Area.Height - 2*geometry.Dot(above)*dots,
	}
}

// Rects are the symbol's dark parts in dots of the page.
func (p PlacedSymbol) Rects() []geometry.Rect {
	at, dots := p.Modules(), p.Choice.Dots
	rects := p.Choice.Symbol.Rects()
	for i, r := range rects {
		rects[i] = geometry.Rect{X: at.X + r.X*dots, Y: at.Y + r.Y*dots, Width: r.Width * dots, Height: r.Height * dots}
		if p.Choice.Symbol.Symbology == symbol.Code128 {
			rects[i].Height = at.Height
		}
	}
	return rects
}
