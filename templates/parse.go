package templates

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"strings"
	"text/template"

	"github.com/BurntSushi/toml"

	"steeltally/geometry"
)

// written is a template file as it is written; lengths are millimetres.
type written struct {
	Title  string
	Size   []float64
	Text   []writtenText
	Symbol []writtenSymbol
	Bar    []writtenBar
	Hole   []writtenHole
	Line   []writtenLine
}

type writtenText struct {
	Content, Fit, Align, Valign, Side, When string
	Box                                     []float64
	Height, Least                           float64
	Bold, Reversed, Turned                  bool
}

type writtenSymbol struct {
	Content, Level, Align, Side, When string
	Box                               []float64
	Prefer                            []string
	Turned                            bool
}

type writtenBar struct {
	Side, When string
	Box        []float64
	Turned     bool
}

type writtenHole struct {
	At       []float64
	Diameter float64
}

type writtenLine struct {
	From, To []float64
	Dashed   bool
}

// Parse reads and checks a template file. The name is the file's name without its
// ending. Every mistake that it finds is in the error, each with its line.
func Parse(name string, source []byte) (*Template, error) {
	if err := checkExtent(name, source); err != nil {
		return nil, err
	}
	var w written
	meta, err := toml.Decode(string(source), &w)
	lines := indexLines(source)
	if err != nil {
		return nil, syntaxError(name, err)
	}
	p := &parser{name: name, lines: lines}
	p.unknownKeys(meta, w, "template")
	t := p.template(w)
	if err := p.err(); err != nil {
		return nil, err
	}
	return t, nil
}

// What a file can have. The largest of ours has 12 kB; nested brackets and dotted names
// of some ten thousand letters take the reader of TOML half a minute.
const (
	mostBytes     = 64 << 10
	mostLineBytes = 1000
)

// checkExtent refuses files that no person writes before they are read.
func checkExtent(name string, source []byte) error {
	if len(source) > mostBytes {
		return fmt.Errorf("%s has %d kB; %d are possible", name, len(source)>>10, mostBytes>>10)
	}
	number := 0
	for line := range bytes.Lines(source) {
		if number++; len(line) > mostLineBytes {
			return fmt.Errorf("%s, line %d: it has %d letters; %d are possible", name, number, len(line), mostLineBytes)
		}
	}
	return nil
}

// syntaxError turns the reader's error into one line with its place.
func syntaxError(name string, err error) error {
	var syntax toml.ParseError
	if errors.As(err, &syntax) {
		return fmt.Errorf("%s, line %d: %s", name, syntax.Position.Line, syntax.Message)
	}
	return fmt.Errorf("%s: %w", name, err)
}

// parser collects mistakes while it turns what is written into a template.
type parser struct {
	name   string
	lines  lineIndex
	faults []fault
}

// template builds the template; the faults tell whether it may be used.
func (p *parser) template(w written) *Template {
	t := &Template{Name: p.name, Title: w.Title}
	if w.Title == "" {
		p.wrong("title", "a template needs a title that says what it is for")
	}
	t.Width, t.Height = p.size("size", w.Size)
	page := Box{Width: t.Width, Height: t.Height}
	for i, text := range w.Text {
		t.Texts = append(t.Texts, p.text(fmt.Sprintf("text[%d]", i), text, page))
	}
	for i, symbol := range w.Symbol {
		t.Symbols = append(t.Symbols, p.symbol(fmt.Sprintf("symbol[%d]", i), symbol, page))
	}
	for i, bar := range w.Bar {
		key := fmt.Sprintf("bar[%d]", i)
		t.Bars = append(t.Bars, Bar{Condition: p.condition(key, bar.Side, bar.When), Box: p.box(key, bar.Box, bar.Turned, page)})
	}
	for i, hole := range w.Hole {
		t.Holes = append(t.Holes, p.hole(fmt.Sprintf("hole[%d]", i), hole, page))
	}
	for i, line := range w.Line {
		t.Lines = append(t.Lines, p.line(fmt.Sprintf("line[%d]", i), line, page))
	}
	if len(t.Texts)+len(t.Symbols) == 0 {
		p.wrong("size", "the template prints nothing: add a [[text]] or a [[symbol]]")
	}
	return t
}

// text checks one field of writing.
func (p *parser) text(key string, w writtenText, page Box) Text {
	t := Text{
		Condition: p.condition(key, w.Side, w.When),
		Box:       p.box(key, w.Box, w.Turned, page),
		Height:    geometry.Millimetre(w.Height),
		Least:     geometry.Millimetre(w.Least),
		Fit:       Fit(cmp.Or(w.Fit, string(Shrink))),
		Align:     p.align(key, w.Align),
		Valign:    p.valign(key, w.Valign),
		Bold:      w.Bold, Reversed: w.Reversed, Turned: w.Turned,
		source: w.Content, content: p.content(key, "content", w.Content),
	}
	p.fit(key, &t)
	return t
}

// fit checks the heights of a text and its rule.
func (p *parser) fit(key string, t *Text) {
	switch t.Fit {
	case Shrink, Wrap, Refuse, Cut:
	default:
		p.wrong(key+".fit", "%q is not a fit rule: use shrink, wrap, refuse or cut", t.Fit)
	}
	if !(t.Height > 0) {
		p.wrong(key+".height", "a text needs the height of its capitals in mm, as height = 3")
	}
	if t.Least == 0 {
		t.Least = t.Height
	}
	if !(t.Least >= leastText && t.Least <= t.Height) {
		p.wrong(key+".least", "the least height is %s: it must be from %s to the height, %s", t.Least, leastText, t.Height)
	}
	if t.Height > t.Box.Height && t.Box.Height > 0 {
		p.wrong(key+".height", "letters of %s do not stand in a box %s high", t.Height, t.Box.Height)
	}
}

// leastText is the smallest capital that a 203 dpi printer still prints legibly
// (common practice, no source).
const leastText geometry.Millimetre = 1.3

// symbol checks one machine-readable symbol.
func (p *parser) symbol(key string, w writtenSymbol, page Box) Symbol {
	if len(w.Prefer) == 0 {
		p.wrong(key+".prefer", `a symbol needs its kinds, most wanted first, as prefer = ["qr"]`)
	}
	for _, kind := range w.Prefer {
		if kind != "qr" && kind != "datamatrix" && kind != "code128" {
			p.wrong(key+".prefer", "%q is not a symbol: use qr, datamatrix or code128", kind)
		}
	}
	if !strings.Contains("LMQH", w.Level) || len(w.Level) > 1 {
		p.wrong(key+".level", "%q is not an error correction level: use L, M, Q or H", w.Level)
	}
	return Symbol{
		Condition: p.condition(key, w.Side, w.When),
		Box:       p.box(key, w.Box, w.Turned, page),
		Prefer:    w.Prefer, LeastLevel: cmp.Or(w.Level, "M"), Align: p.align(key, w.Align),
		source: w.Content, content: p.content(key, "content", w.Content),
	}
}

// content parses a text with its fields, and tries it on an empty and a full tag.
func (p *parser) content(key, field, source string) *template.Template {
	if source == "" {
		p.wrong(key+"."+field, "nothing to print: write a text or a field such as \"{{.Short}}\"")
		return nil
	}
	t, err := template.New(p.name).Funcs(functions()).Parse(source)
	if err == nil {
		err = finite(t)
	}
	if err != nil {
		p.wrong(key+"."+field, "%s", plain(err))
		return nil
	}
	for _, trial := range []Content{{}, Sample()} {
		if _, err := expand(t, trial); err != nil {
			p.wrong(key+"."+field, "%s", plain(err))
			return nil
		}
	}
	return t
}

// condition parses when an element is there.
func (p *parser) condition(key, side, when string) Condition {
	c := Condition{Side: side}
	if side != "" && side != "left" && side != "right" && side != "none" {
		p.wrong(key+".side", "%q is not a side: use left, right or none, or leave it out", side)
	}
	if when != "" {
		c.when = p.content(key, "when", "{{if "+when+"}}yes{{end}}")
	}
	return c
}

// functions are what a template may call besides those of text/template.
func functions() template.FuncMap { return template.FuncMap{"upper": strings.ToUpper} }

// plain is a text/template error without its file and line, which mean nothing here.
func plain(err error) string {
	_, message, found := strings.Cut(err.Error(), ">: ")
	if !found {
		parts := strings.SplitN(err.Error(), ": ", 3)
		message = parts[len(parts)-1]
	}
	return message
}
