package lettering

import (
	"fmt"

	"golang.org/x/image/font/sfnt"
	"golang.org/x/image/math/fixed"
)

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
