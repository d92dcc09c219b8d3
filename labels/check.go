package labels

import (
	"fmt"

	"steeltally/geometry"
)

// Faults lists what is wrong with a laid-out page: text below its least size, marks
// outside the page, things that overlap, ink in a quiet zone or a hole. It looks at
// the page alone, not at how it came about; a page without faults gives nil.
func (p Page) Faults() []string {
	c := checker{page: p}
	c.inside()
	c.sizes()
	c.overlaps()
	c.bands()
	return c.faults
}

// checker collects a page's faults.
type checker struct {
	page   Page
	faults []string
}

// wrong notes a fault.
func (c *checker) wrong(format string, values ...any) {
	c.faults = append(c.faults, fmt.Sprintf(format, values...))
}

// thing is something on a page with the room that it needs for itself.
type thing struct {
	name string
	rect geometry.Rect
}

// things are all texts and symbols.
func (c *checker) things() []thing {
	var list []thing
	for _, t := range c.page.Texts {
		list = append(list, thing{fmt.Sprintf("text %q", t.Text), t.Ink})
	}
	for _, s := range c.page.Symbols {
		list = append(list, thing{fmt.Sprintf("%s %s", s.Choice.Symbol.Symbology, s.Choice.Symbol.Text), s.Area})
	}
	return list
}

// inside wants everything on the page.
func (c *checker) inside() {
	page := geometry.Rect{Width: c.page.Width, Height: c.page.Height}
	list := c.things()
	for i, r := range append(append([]geometry.Rect(nil), c.page.Ink...), c.page.Marks...) {
		list = append(list, thing{fmt.Sprintf("rectangle %d", i), r})
	}
	for _, t := range list {
		if !page.Contains(t.rect) {
			c.wrong("%s reaches outside the page", t.name)
		}
	}
}

// sizes wants letters of their least height and modules of at least two dots.
func (c *checker) sizes() {
	for _, t := range c.page.Texts {
		if t.Capital < t.Least {
			c.wrong("text %q has capitals of %s, below its least, %s", t.Text, t.Capital, t.Least)
		}
	}
	for _, s := range c.page.Symbols {
		if s.Choice.Dots < 2 {
			c.wrong("%s has modules of %d dots", s.Choice.Symbol.Symbology, s.Choice.Dots)
		}
	}
}

// overlaps wants each text and each symbol with its quiet zone clear of all others, of
// black ink, guides and holes.
func (c *checker) overlaps() {
	list := c.things()
	for i, one := range list {
		for _, other := range list[i+1:] {
			if overlap(one.rect, other.rect) {
				c.wrong("%s overlaps %s", one.name, other.name)
			}
		}
		for _, r := range append(append([]geometry.Rect(nil), c.page.Marks...), c.page.Holes...) {
			if overlap(one.rect, r) {
				c.wrong("%s overlaps a guide or a hole", one.name)
			}
		}
	}
	for _, s := range c.page.Symbols {
		for _, ink := range c.page.Ink {
			if overlap(s.Area, ink) {
				c.wrong("%s has ink in its quiet zone", s.Choice.Symbol.Symbology)
			}
		}
	}
	for _, ink := range c.page.Ink {
		c.hole(ink)
	}
}

// hole wants no ink on the inner half of a hole's square, which the disc covers.
func (c *checker) hole(ink geometry.Rect) {
	for _, h := range c.page.Holes {
		if overlap(ink, h.Inset(h.Width/5)) {
			c.wrong("ink in a hole")
		}
	}
}

// bands wants white text wholly on black ink and black text wholly off it.
func (c *checker) bands() {
	for _, t := range c.page.Texts {
		rest := []geometry.Rect{t.Ink}
		for _, ink := range c.page.Ink {
			if !t.White && overlap(ink, t.Ink) {
				c.wrong("text %q stands on a bar", t.Text)
			}
			rest = without(rest, ink)
		}
		if t.White && len(rest) > 0 {
			c.wrong("white text %q reaches outside its band", t.Text)
		}
	}
}

// without is what is left of rectangles outside another.
func without(list []geometry.Rect, cut geometry.Rect) []geometry.Rect {
	var rest []geometry.Rect
	for _, r := range list {
		if !overlap(r, cut) {
			rest = append(rest, r)
			continue
		}
		top, bottom := max(r.Y, cut.Y), min(r.Bottom(), cut.Bottom())
		pieces := []geometry.Rect{
			{X: r.X, Y: r.Y, Width: r.Width, Height: top - r.Y},
			{X: r.X, Y: bottom, Width: r.Width, Height: r.Bottom() - bottom},
			{X: r.X, Y: top, Width: cut.X - r.X, Height: bottom - top},
			{X: cut.Right(), Y: top, Width: r.Right() - cut.Right(), Height: bottom - top},
		}
		for _, piece := range pieces {
			if piece.Width > 0 && piece.Height > 0 {
				rest = append(rest, piece)
			}
		}
	}
	return rest
}

// overlap tells whether two rectangles share a dot.
func overlap(a, b geometry.Rect) bool {
	return a.X < b.Right() && b.X < a.Right() && a.Y < b.Bottom() && b.Y < a.Bottom()
}
