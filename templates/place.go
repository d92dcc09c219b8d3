package templates

import (
	"cmp"

	"steeltally/geometry"
)

// largestTag is the longest side that a tag or a page may have: an A3 sheet's.
const largestTag geometry.Millimetre = 420

// size checks a width and height.
func (p *parser) size(key string, w []float64) (width, height geometry.Millimetre) {
	if len(w) != 2 {
		p.wrong(key, "give width and height in mm, as %s = [70, 35]", key)
		return 0, 0
	}
	width, height = geometry.Millimetre(w[0]), geometry.Millimetre(w[1])
	if !(width >= 2 && height >= 2 && width <= largestTag && height <= largestTag) { // so that NaN fails too
		p.wrong(key, "%s by %s is not a size for a tag: from 2 mm to %s", width, height, largestTag)
	}
	return width, height
}

// box checks a place on the page. A turned one is measured from the opposite corner,
// as it is seen with the tag held upside down.
func (p *parser) box(key string, w []float64, turned bool, page Box) Box {
	key += ".box"
	if len(w) != 4 {
		p.wrong(key, "give left, top, width and height in mm, as box = [2, 2, 20, 10]")
		return Box{}
	}
	b := Box{geometry.Millimetre(w[0]), geometry.Millimetre(w[1]), geometry.Millimetre(w[2]), geometry.Millimetre(w[3])}
	if !(b.Width > 0 && b.Height > 0) {
		p.wrong(key, "a box needs a width and a height above zero")
	}
	if !(b.X >= 0 && b.Y >= 0 && b.Right() <= page.Width+tolerance && b.Bottom() <= page.Height+tolerance) {
		p.wrong(key, "the box reaches outside the tag of %s by %s", page.Width, page.Height)
	}
	if turned {
		b.X, b.Y = page.Width-b.Right(), page.Height-b.Bottom()
	}
	return b
}

// tolerance takes up the rounding of sums such as 0.1 + 0.2.
const tolerance geometry.Millimetre = 1e-6

// point checks a place given as left and top.
func (p *parser) point(key string, w []float64, page Box) (x, y geometry.Millimetre) {
	if len(w) != 2 {
		p.wrong(key, "give left and top in mm, as [5, 5]")
		return 0, 0
	}
	x, y = geometry.Millimetre(w[0]), geometry.Millimetre(w[1])
	if !(x >= 0 && y >= 0 && x <= page.Width && y <= page.Height) {
		p.wrong(key, "the point is outside the tag of %s by %s", page.Width, page.Height)
	}
	return x, y
}

// hole checks a hole.
func (p *parser) hole(key string, w writtenHole, page Box) Hole {
	x, y := p.point(key+".at", w.At, page)
	h := Hole{X: x, Y: y, Diameter: geometry.Millimetre(w.Diameter)}
	r := h.Diameter / 2
	if !(r > 0 && x >= r && y >= r && x+r <= page.Width && y+r <= page.Height) {
		p.wrong(key+".diameter", "a hole of %s does not lie inside the tag there", h.Diameter)
	}
	return h
}

// line checks a guide line.
func (p *parser) line(key string, w writtenLine, page Box) Line {
	x1, y1 := p.point(key+".from", w.From, page)
	x2, y2 := p.point(key+".to", w.To, page)
	if x1 != x2 && y1 != y2 {
		p.wrong(key+".to", "a line is level or upright: keep one of the two numbers")
	}
	return Line{X1: min(x1, x2), Y1: min(y1, y2), X2: max(x1, x2), Y2: max(y1, y2), Dashed: w.Dashed}
}

// align checks where a text or a symbol stands.
func (p *parser) align(key, align string) Align {
	switch a := Align(cmp.Or(align, string(Left))); a {
	case Left, Centre, Right:
		return a
	default:
		p.wrong(key+".align", "%q is not an alignment: use left, centre or right", align)
		return Left
	}
}

// valign checks where a text stands, upright.
func (p *parser) valign(key, valign string) Valign {
	switch v := Valign(cmp.Or(valign, string(Middle))); v {
	case Top, Middle, Bottom:
		return v
	default:
		p.wrong(key+".valign", "%q is not an alignment: use top, middle or bottom", valign)
		return Middle
	}
}
