package lettering

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

// Break cuts a clean text into lines whose ink is at most width thousandths of an em
// wide: at line breaks, at blanks, and behind hyphens between letters or digits. A part
// that is wider has a line of its own.
func (f *Face) Break(text string, width int) []string {
	var lines []string
	for _, paragraph := range strings.Split(text, "\n") {
		line := ""
		for _, part := range parts(paragraph) {
			longer := line + part
			if line != "" && f.Measure(strings.TrimRight(longer, " ")).Width() > width {
				lines = append(lines, strings.TrimRight(line, " "))
				longer = part
			}
			line = longer
		}
		lines = append(lines, strings.TrimRight(line, " "))
	}
	return lines
}

// parts are the pieces of a paragraph that a line may end behind, each with the blank
// or the hyphen that ends it.
func parts(paragraph string) []string {
	var list []string
	for _, word := range strings.Fields(paragraph) {
		for {
			at := hyphen(word)
			if at < 0 {
				break
			}
			list, word = append(list, word[:at]), word[at:]
		}
		list = append(list, word+" ")
	}
	return list
}

// hyphen is the place behind a word's first hyphen that has something before and
// behind it, or -1.
func hyphen(word string) int {
	at := strings.Index(word, "-")
	if at <= 0 || at == len(word)-1 {
		return -1
	}
	return at + 1
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

// Clean makes a text printable in a face: accents join their letters, letters that it
// lacks become Placeholder, other white space than a line break becomes a blank,
// invisible marks vanish. It gives back what was replaced, each letter once, so that
// nothing is lost silently.
func (f *Face) Clean(text string) (clean string, replaced []rune) {
	seen := map[rune]bool{}
	var out strings.Builder
	for _, r := range norm.NFC.String(text) {
		switch {
		case r == '\n':
			out.WriteRune(r)
		case unicode.IsSpace(r):
			out.WriteRune(' ')
		case f.has(r):
			out.WriteRune(r)
		case invisible(r):
		default:
			out.WriteRune(Placeholder)
			if !seen[r] {
				seen[r] = true
				replaced = append(replaced, r)
			}
		}
	}
	return out.String(), replaced
}

// has tells whether the face has a letter; the mark for bytes that are no letter is none.
func (f *Face) has(r rune) bool {
	_, ok := f.glyphs[r]
	return ok && r != unicode.ReplacementChar
}

// invisible tells whether a character only steers others: joiners, direction marks,
// variation selectors, controls.
func invisible(r rune) bool {
	return unicode.Is(unicode.Cf, r) || unicode.Is(unicode.Cc, r) || unicode.Is(unicode.Variation_Selector, r)
}
