package lettering

import (
	"strings"
	"unicode"

	"golang.org/x/text/unicode/norm"
)

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
