package lettering

import "strings"

// Break cuts a clean text into lines whose ink is at most width thousandths of an em
// wide, at blanks and line breaks. A single word that is wider has a line of its own.
func (f *Face) Break(text string, width int) []string {
	var lines []string
	for _, paragraph := range strings.Split(text, "\n") {
		line := ""
		for _, word := range strings.Fields(paragraph) {
			longer := strings.TrimSpace(line + " " + word)
			if line != "" && f.Measure(longer).Width() > width {
				lines = append(lines, line)
				longer = word
			}
			line = longer
		}
		lines = append(lines, line)
	}
	return lines
}

// Ellipsis marks a text that was cut short.
const Ellipsis = "…"

// Shorten is the text if its ink is at most width thousandths of an em wide, or else
// as much of its beginning as fits with an Ellipsis behind it.
func (f *Face) Shorten(text string, width int) string {
	if f.Measure(text).Width() <= width {
		return text
	}
	letters := []rune(text)
	for n := len(letters) - 1; n > 0; n-- {
		short := strings.TrimRight(string(letters[:n]), " ") + Ellipsis
		if f.Measure(short).Width() <= width {
			return short
		}
	}
	return Ellipsis
}
