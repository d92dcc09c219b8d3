package labels

import (
	"fmt"

	"steeltally/geometry"
	"steeltally/labels/lettering"
	"steeltally/labels/symbol"
	"steeltally/templates"
)

// The resolutions that tags are laid out for, in dots per inch.
const (
	LeastDPI geometry.DPI = 203
	MostDPI  geometry.DPI = 1200
)

// Layout draws a tag of a template with its content for a printer's resolution. An
// error says which field does not fit and what would; what is shown otherwise than
// given (a letter that the faces lack, a text cut short) is among the page's notices.
func Layout(t *templates.Template, c Content, dpi geometry.DPI) (Page, error) {
	if dpi < LeastDPI || dpi > MostDPI {
		return Page{}, fmt.Errorf("%d dpi: tags are laid out for %d to %d dots per inch, such as 203, 300 or 600", dpi, LeastDPI, MostDPI)
	}
	l := &layout{content: c, page: Page{Name: c.Number, DPI: dpi, Width: t.Width.Dots(dpi), Height: t.Height.Dots(dpi)}}
	steps := []func(*templates.Template) error{l.bars, l.texts, l.symbols, l.lines, l.holes}
	for _, step := range steps {
		if err := step(t); err != nil {
			return Page{}, fmt.Errorf("tag %s of %s: %w", t.Name, orName(c), err)
		}
	}
	return l.page, nil
}

// orName is what to call a content in a message.
func orName(c Content) string {
	for _, name := range []string{c.Short, c.Number, c.Name, c.Word} {
		if name != "" {
			return name
		}
	}
	return "an unnumbered piece"
}

// layout is a page that is being drawn.
type layout struct {
	content Content
	page    Page
}

// rect is a box in whole dots; neighbours stay neighbours, since each edge is rounded
// on its own.
func (l *layout) rect(b templates.Box) geometry.Rect {
	left, top := b.X.Dots(l.page.DPI), b.Y.Dots(l.page.DPI)
	return geometry.Rect{X: left, Y: top, Width: b.Right().Dots(l.page.DPI) - left, Height: b.Bottom().Dots(l.page.DPI) - top}
}

// bars draws the bars that the content calls for.
func (l *layout) bars(t *templates.Template) error {
	for _, bar := range t.Bars {
		there, err := bar.Holds(l.content)
		if err != nil {
			return err
		}
		if there {
			l.page.Ink = append(l.page.Ink, l.rect(bar.Box))
		}
	}
	return nil
}

// symbols draws the symbols, each as large as its box allows.
func (l *layout) symbols(t *templates.Template) error {
	for _, s := range t.Symbols {
		there, err := s.Holds(l.content)
		if err != nil {
			return err
		}
		if !there {
			continue
		}
		if err := l.symbol(s); err != nil {
			return fmt.Errorf("symbol %s: %w", s.Source(), err)
		}
	}
	return nil
}

// symbol draws one symbol. One without content is left out.
func (l *layout) symbol(s templates.Symbol) error {
	text, err := s.Write(l.content)
	if err != nil || text == "" {
		return err
	}
	box := l.rect(s.Box)
	var prefer []symbol.Symbology
	for _, kind := range s.Prefer {
		prefer = append(prefer, symbol.Symbology(kind))
	}
	choice, err := symbol.Choose(symbol.Request{
		Text: text, Width: box.Width, Height: box.Height, Prefer: prefer, LeastLevel: symbol.Level(s.LeastLevel),
	})
	if err != nil {
		return err
	}
	area := geometry.Rect{X: box.X, Y: box.Y + (box.Height-choice.Height)/2, Width: choice.Width, Height: choice.Height}
	switch s.Align {
	case templates.Centre:
		area.X += (box.Width - choice.Width) / 2
	case templates.Right:
		area.X = box.Right() - choice.Width
	}
	l.page.Symbols = append(l.page.Symbols, PlacedSymbol{Choice: choice, Area: area})
	return nil
}

// texts writes the fields that the content fills.
func (l *layout) texts(t *templates.Template) error {
	for _, text := range t.Texts {
		there, err := text.Holds(l.content)
		if err != nil {
			return err
		}
		if !there {
			continue
		}
		if err := l.text(text); err != nil {
			return fmt.Errorf("text %s: %w", text.Source(), err)
		}
	}
	return nil
}

// text writes one field: it is set in lines that fit and put on the page.
func (l *layout) text(t templates.Text) error {
	words, err := t.Write(l.content)
	if err != nil || words == "" {
		return err
	}
	face := lettering.Of(lettering.Style(t.Bold))
	clean, replaced := face.Clean(words)
	if len(replaced) > 0 {
		l.notice("%q: the tag's face has no letter for %s; a box stands for each", words, list(replaced))
	}
	box := l.rect(t.Box)
	if t.Reversed {
		l.page.Ink = append(l.page.Ink, box)
	}
	s := setting{
		face: face, width: box.Width, height: box.Height,
		most: emFor(t.Height, face, l.page.DPI), least: emFor(t.Least, face, l.page.DPI), fit: t.Fit,
	}
	set, err := s.set(clean)
	if err != nil {
		return fmt.Errorf("%q %w in %s by %s", clean, err, t.Box.Width, t.Box.Height)
	}
	if set.cut {
		l.notice("%q is too long for its place and was cut short: %q", clean, set.text())
	}
	l.place(t, box, set)
	return nil
}

// notice adds to what the page could not show as given.
func (l *layout) notice(format string, values ...any) {
	l.page.Notices = append(l.page.Notices, fmt.Sprintf(format, values...))
}

// list names characters by their code points: they may not be printable here either.
func list(letters []rune) string {
	text := ""
	for i, r := range letters {
		if i > 0 {
			text += ", "
		}
		text += fmt.Sprintf("%U", r)
	}
	return text
}

// emFor is the em whose capitals are at least as high as asked, in whole dots.
func emFor(capital geometry.Millimetre, face *lettering.Face, dpi geometry.DPI) geometry.Dot {
	em := (capital * lettering.Em / geometry.Millimetre(face.CapHeight)).Dots(dpi)
	if capitalHeight(em, face, dpi) < capital {
		em++
	}
	return em
}

// capitalHeight is the height of an em's capitals.
func capitalHeight(em geometry.Dot, face *lettering.Face, dpi geometry.DPI) geometry.Millimetre {
	return em.Millimetres(dpi) * geometry.Millimetre(face.CapHeight) / lettering.Em
}

// place puts set lines into their box: the capitals where they are to stand, moved
// where a tail or an accent would leave the box.
func (l *layout) place(t templates.Text, box geometry.Rect, set typeset) {
	top := box.Y + (box.Height-set.capitals())/2
	switch t.Valign {
	case templates.Top:
		top = box.Y
	case templates.Bottom:
		top = box.Bottom() - set.capitals()
	}
	top = min(top, box.Bottom()-set.capitals()-set.below())
	top = max(top, box.Y+set.above())
	for i, line := range set.lines {
		run := TextRun{
			Text: line.text, Style: lettering.Style(t.Bold), Em: set.em, White: t.Reversed, Turned: t.Turned,
			X: box.X - line.left, Baseline: top + set.capital() + geometry.Dot(i)*set.pitch(),
			Capital: capitalHeight(set.em, set.face, l.page.DPI), Least: t.Least,
		}
		switch t.Align {
		case templates.Centre:
			run.X = box.X + (box.Width-line.width())/2 - line.left
		case templates.Right:
			run.X = box.Right() - line.right
		}
		run.Ink = geometry.Rect{X: run.X + line.left, Y: run.Baseline - line.above, Width: line.width(), Height: line.above + line.below}
		if t.Turned {
			turn(&run, box)
		}
		l.page.Texts = append(l.page.Texts, run)
	}
}

// turn swings a run half around the middle of its box.
func turn(run *TextRun, box geometry.Rect) {
	run.X = box.X + box.Right() - run.X
	run.Baseline = box.Y + box.Bottom() - run.Baseline
	run.Ink.X = box.X + box.Right() - run.Ink.Right()
	run.Ink.Y = box.Y + box.Bottom() - run.Ink.Bottom()
}
