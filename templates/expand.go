package templates

import (
	"fmt"
	"strings"
	"text/template"
)

// Write fills the text's fields from the content.
func (t Text) Write(c Content) (string, error) { return expand(t.content, t.source, c) }

// Source is the text as the template has it.
func (t Text) Source() string { return t.source }

// Write fills the symbol's text from the content.
func (s Symbol) Write(c Content) (string, error) { return expand(s.content, s.source, c) }

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
	var out strings.Builder
	if err := c.when.Execute(&out, content); err != nil {
		return false, fmt.Errorf("condition: %w", err)
	}
	return out.Len() > 0, nil
}

// expand runs a parsed text over the content and trims what it gives.
func expand(t *template.Template, source string, c Content) (string, error) {
	var out strings.Builder
	if err := t.Execute(&out, c); err != nil {
		return "", fmt.Errorf("%q: %w", source, err)
	}
	return strings.TrimSpace(out.String()), nil
}
