// Package lettering knows the two faces that tags are written in: which letters they
// have, how wide and high these are, and their outlines. Lengths are thousandths of
// an em, as PDF counts glyph widths, so that every renderer agrees on them.
package lettering

import (
	"fmt"
	"sync"

	"golang.org/x/image/font"
	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

// Style is a face: Regular or Bold.
type Style bool

// The faces.
const (
	Regular Style = false
	Bold    Style = true
)

// Em is the number of units that the lengths of this package divide an em into.
const Em = 1000

// Placeholder stands for a letter that the faces lack, such as an emoji.
const Placeholder = '□'

// Glyph is one letter's measure in thousandths of an em; Left, Right, Above and Below
// bound its ink: Right from the pen, Above and Below from the baseline.
type Glyph struct {
	Advance      int
	Left, Right  int
	Above, Below int
}

// Face is the measure of all letters of a style.
type Face struct {
	Style     Style
	CapHeight int // of capitals and, but for their overshoot, digits
	glyphs    map[rune]Glyph
}

var (
	regular = sync.OnceValue(func() *Face { return measure(Regular) })
	bold    = sync.OnceValue(func() *Face { return measure(Bold) })
)

// Of is the face of a style.
func Of(s Style) *Face {
	if s == Bold {
		return bold()
	}
	return regular()
}

// TTF is the style's font file.
func TTF(s Style) []byte {
	if s == Bold {
		return gobold.TTF
	}
	return goregular.TTF
}

// Glyph is the measure of a letter; false if the face lacks it.
func (f *Face) Glyph(r rune) (Glyph, bool) {
	g, ok := f.glyphs[r]
	return g, ok
}

// lastRune is where the faces' letters end: both lie in the basic plane.
const lastRune = 0xFFFD

// measure takes the measure of every letter of a style. The embedded fonts are
// always readable; a damaged one would leave a face without letters.
func measure(s Style) *Face {
	face := &Face{Style: s, glyphs: map[rune]Glyph{}}
	f, err := sfnt.Parse(TTF(s))
	if err != nil {
		return face
	}
	var buffer sfnt.Buffer
	perEm := fixed.I(int(f.UnitsPerEm()))
	if m, err := f.Metrics(&buffer, perEm, font.HintingNone); err == nil {
		face.CapHeight = toEm(m.CapHeight, perEm)
	}
	for r := ' '; r <= lastRune; r++ {
		index, err := f.GlyphIndex(&buffer, r)
		if err != nil || index == 0 {
			continue
		}
		bounds, advance, err := f.GlyphBounds(&buffer, index, perEm, font.HintingNone)
		if err != nil {
			continue
		}
		face.glyphs[r] = Glyph{
			Advance: toEm(advance, perEm),
			Left:    toEm(bounds.Min.X, perEm), Right: toEm(bounds.Max.X, perEm) + 1,
			Above: toEm(-bounds.Min.Y, perEm) + 1, Below: toEm(bounds.Max.Y, perEm) + 1,
		}
	}
	return face
}

// toEm turns font units into thousandths of an em, rounded down as PDF writers do.
func toEm(l, perEm fixed.Int26_6) int { return int(l) * Em / int(perEm) }

// Extent is the measure of a line of text in thousandths of an em. Left and Right
// bound the ink from the pen's start; Above and Below from the baseline.
type Extent struct {
	Advance      int
	Left, Right  int
	Above, Below int
}

// Width is the width of the ink.
func (e Extent) Width() int { return e.Right - e.Left }

// Measure measures a clean line of text.
func (f *Face) Measure(line string) Extent {
	var e Extent
	first := true
	for _, r := range line {
		g := f.glyphs[r]
		if g.Right > g.Left+1 {
			if first {
				e.Left, e.Above, e.Below, first = e.Advance+g.Left, g.Above, g.Below, false
			}
			e.Left = min(e.Left, e.Advance+g.Left)
			e.Right = max(e.Right, e.Advance+g.Right)
			e.Above = max(e.Above, g.Above)
			e.Below = max(e.Below, g.Below)
		}
		e.Advance += g.Advance
	}
	return e
}

// Outliner gives glyphs' outlines. It is not for use by several goroutines at once.
type Outliner struct {
	font   *sfnt.Font
	buffer sfnt.Buffer
}

// NewOutliner opens a style's outlines.
func NewOutliner(s Style) (*Outliner, error) {
	f, err := sfnt.Parse(TTF(s))
	if err != nil {
		return nil, fmt.Errorf("the embedded font: %w", err)
	}
	return &Outliner{font: f}, nil
}

// UnitsPerEm is the number of font units in an em.
func (o *Outliner) UnitsPerEm() int { return int(o.font.UnitsPerEm()) }

// Outline is a letter's outline in 64ths of a font unit, from the pen on the baseline,
// Y downwards. It is valid until the next call.
func (o *Outliner) Outline(r rune) (sfnt.Segments, error) {
	index, err := o.font.GlyphIndex(&o.buffer, r)
	if err != nil {
		return nil, fmt.Errorf("letter %U: %w", r, err)
	}
	if index == 0 {
		return nil, fmt.Errorf("letter %U: not in the face", r)
	}
	return o.font.LoadGlyph(&o.buffer, index, fixed.I(o.UnitsPerEm()), nil)
}
