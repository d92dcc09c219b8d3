package labels

import (
	"fmt"

	"steeltally/geometry"
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
