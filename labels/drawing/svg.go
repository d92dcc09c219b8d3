package drawing

import (
	"bufio"
	"encoding/xml"
	"fmt"
	"io"
	"strings"

	"steeltally/geometry"
	"steeltally/labels/lettering"
)

// fontFamily is the face of the PDF where a screen has it, else its own plain one.
const fontFamily = "Go, Arial, sans-serif"

// WriteSVG writes the drawing for a screen, with a title for who can't see it. A
// drawing of 90 mm is shown as wide as there is room.
func (d Drawing) WriteSVG(w io.Writer, title string) error {
	out := &svg{Writer: bufio.NewWriter(w)}
	out.printf(`<svg xmlns="http://www.w3.org/2000/svg" role="img" width="%smm" height="%smm" viewBox="0 0 %s %s" font-family="%s">`,
		mm(d.Width), mm(d.Height), mm(d.Width), mm(d.Height), fontFamily)
	out.printf("<title>%s</title>\n", escaped(title))
	for _, shape := range d.Shapes {
		out.shape(shape)
	}
	out.printf("</svg>\n")
	if out.err != nil {
		return out.err
	}
	return out.Flush()
}

// svg keeps the first error.
type svg struct {
	*bufio.Writer
	err error
}

func (s *svg) printf(format string, args ...any) {
	if s.err == nil {
		_, s.err = fmt.Fprintf(s, format, args...)
	}
}

func (s *svg) shape(shape Shape) {
	switch v := shape.(type) {
	case Line:
		s.printf(`<polyline points="%s" fill="none" stroke="%s" stroke-width="%s"%s/>`+"\n", points(v.Points), colour(v.Grey), mm(v.Width), dashes(v.Dashes))
	case Area:
		s.printf(`<polygon points="%s" fill="%s"/>`+"\n", points(v.Points), colour(v.Grey))
	case Dot:
		fill := colour(v.Grey)
		if v.Hollow {
			fill = colour(White)
		}
		s.printf(`<circle cx="%s" cy="%s" r="%s" fill="%s" stroke="%s" stroke-width="0.3"/>`+"\n", mm(v.At.X), mm(v.At.Y), mm(v.Radius), fill, colour(v.Grey))
	case Text:
		s.text(v)
	}
}

func (s *svg) text(t Text) {
	anchor := [...]string{Start: "start", Middle: "middle", End: "end"}[t.Anchor]
	weight, turn := "", ""
	if t.Style == lettering.Bold {
		weight = ` font-weight="bold"`
	}
	if t.Upright {
		turn = fmt.Sprintf(` transform="rotate(-90 %s %s)"`, mm(t.At.X), mm(t.At.Y))
	}
	s.printf(`<text x="%s" y="%s" font-size="%s" text-anchor="%s" fill="%s"%s%s>%s</text>`+"\n",
		mm(t.At.X), mm(t.At.Y), mm(Em(t.Style, t.Capital)), anchor, colour(t.Grey), weight, turn, escaped(t.Text))
}

// mm writes a length to a hundredth of a millimetre.
func mm(l geometry.Millimetre) string {
	text := strings.TrimRight(fmt.Sprintf("%.2f", float64(l)), "0")
	return strings.TrimSuffix(text, ".")
}

func points(list []geometry.Point) string {
	parts := make([]string, len(list))
	for i, p := range list {
		parts[i] = mm(p.X) + "," + mm(p.Y)
	}
	return strings.Join(parts, " ")
}

func dashes(pattern []geometry.Millimetre) string {
	if len(pattern) == 0 {
		return ""
	}
	parts := make([]string, len(pattern))
	for i, d := range pattern {
		parts[i] = mm(d)
	}
	return ` stroke-dasharray="` + strings.Join(parts, " ") + `"`
}

// colour is a grey in the notation of style sheets.
func colour(g Grey) string {
	level := int(float64(g)*255 + 0.5)
	return fmt.Sprintf("#%02x%02x%02x", level, level, level)
}

func escaped(text string) string {
	var out strings.Builder
	xml.EscapeText(&out, []byte(text)) // a strings.Builder takes everything
	return out.String()
}
