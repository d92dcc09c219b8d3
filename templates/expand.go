package templates

import (
	"errors"
	"fmt"
	"strings"
	"text/template"
)

// Write fills the text's fields from the content.
func (t Text) Write(c Content) (string, error) { return write(t.content, t.source, c) }

// Source is the text as the template has it.
func (t Text) Source() string { return t.source }

// Write fills the symbol's text from the content.
func (s Symbol) Write(c Content) (string, error) { return write(s.content, s.source, c) }

// Source is the symbol's text as the template has it.
func (s Symbol) Source() string { return s.source }

// Holds tells whether an element under this condition is on the tag of the content.
func (c Condition) Holds(content Content) (bool, error) {
	switch {
	case c.Side == "none" && content.Side != "":
		return false, nil
	case c.Side != "" && c.Side != "none" && c.Side != content.Side:
		return false, nil
	case c.when == nil:
		return true, nil
	}
	text, err := expand(c.when, content)
	if err != nil {
		return false, fmt.Errorf("condition: %w", err)
	}
	return text != "", nil
}

// write expands a text or a symbol's content and names it in an error.
func write(t *template.Template, source string, c Content) (string, error) {
	text, err := expand(t, c)
	if err != nil {
		return "", fmt.Errorf("%q: %s", source, plain(err))
	}
	return text, nil
}

// expand runs a parsed text over the content and trims what it gives.
func expand(t *template.Template, c Content) (string, error) {
	var out limited
	if err := t.Execute(&out, c); err != nil {
		return "", err
	}
	return strings.TrimSpace(out.text.String()), nil
}

// longest is the most bytes that one field may write: far more than a page holds.
const longest = 10_000

// errEndless says that a field writes without an end.
var errEndless = errors.New("the text is longer than any tag holds")

// limited collects text up to a limit, so that a template that repeats itself is
// stopped.
type limited struct{ text strings.Builder }

// Write takes a piece of text.
func (l *limited) Write(b []byte) (int, error) {
	if l.text.Len()+len(b) > longest {
		return 0, errEndless
	}
	return l.text.Write(b)
}
