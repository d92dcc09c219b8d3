package inventory

import (
	"slices"
	"strings"
	"unicode"
)

// leastLetters is how many letters of a name it takes: fewer are a key, or a slip.
const leastLetters = 3

// playerNamed finds the player with exactly a name, or else the one whose name has words
// that begin so.
func playerNamed(v View, text string) (*Player, error) {
	words := nameWords(text)
	members := named(RosterOf(v).Members, text, words)
	switch {
	case len(members) == 0 && OtherLayout(text):
		return nil, otherLayout(text)
	case len(members) == 0 && lettersIn(words) < leastLetters:
		return nil, Refuse("nobody is known as "+Clip(text)+": a name takes three letters or more", "type more of the name, or the sweater (at the jig ? lists the keys)")
	}
	return onlyOne(v, text, members)
}

func lettersIn(words []string) int { return len([]rune(strings.Join(words, ""))) }

// likeAName tells whether a text has nothing in it that names don't have.
func likeAName(text string) bool {
	return !strings.ContainsFunc(text, func(r rune) bool {
		return !unicode.In(r, unicode.L, unicode.M, unicode.Nd) && !strings.ContainsRune(" '’-.", r)
	})
}

func named(members []Member, text string, words []string) []Member {
	if len([]rune(text)) < leastLetters {
		return nil
	}
	want := strings.ToLower(text)
	other := func(m Member) bool { return strings.ToLower(m.Name) != want }
	if same := slices.DeleteFunc(slices.Clone(members), other); len(same) > 0 {
		return same
	}
	unlike := func(m Member) bool { return m.Gone || !beginsSo(nameWords(m.Name), words) }
	if lettersIn(words) < leastLetters || !likeAName(text) {
		return nil
	}
	return slices.DeleteFunc(slices.Clone(members), unlike)
}

// beginsSo tells whether each typed word begins a word of the name, in any order.
func beginsSo(name, typed []string) bool {
	for _, word := range typed {
		if !slices.ContainsFunc(name, func(of string) bool { return strings.HasPrefix(of, word) }) {
			return false
		}
	}
	return true
}

// nameWords are the words of a name as they are compared: in small letters, without
// accents.
func nameWords(name string) []string {
	return strings.FieldsFunc(plainLetters.Replace(strings.Map(smallUnmarked, name)), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
}

// smallUnmarked drops the marks that stand behind a letter of their own.
func smallUnmarked(r rune) rune {
	if unicode.Is(unicode.Mn, r) {
		return -1
	}
	return unicode.ToLower(r)
}

// plainLetters writes letters of Latin alphabets without their accents (Unicode's blocks
// Latin-1 Supplement and Latin Extended-A, with the Romanian ș and ț).
var plainLetters = strings.NewReplacer(
	"à", "a", "á", "a", "â", "a", "ã", "a", "ä", "a", "å", "a", "ā", "a", "ă", "a", "ą", "a", "æ", "ae",
	"ç", "c", "ć", "c", "ĉ", "c", "ċ", "c", "č", "c", "ď", "d", "đ", "d", "ð", "d",
	"è", "e", "é", "e", "ê", "e", "ë", "e", "ē", "e", "ĕ", "e", "ė", "e", "ę", "e", "ě", "e",
	"ĝ", "g", "ğ", "g", "ġ", "g", "ģ", "g", "ĥ", "h", "ħ", "h",
	"ì", "i", "í", "i", "î", "i", "ï", "i", "ĩ", "i", "ī", "i", "ĭ", "i", "į", "i", "ı", "i", "ĳ", "ij",
	"ĵ", "j", "ķ", "k", "ĺ", "l", "ļ", "l", "ľ", "l", "ŀ", "l", "ł", "l",
	"ñ", "n", "ń", "n", "ņ", "n", "ň", "n", "ŉ", "n", "ŋ", "n",
	"ò", "o", "ó", "o", "ô", "o", "õ", "o", "ö", "o", "ø", "o", "ō", "o", "ŏ", "o", "ő", "o", "œ", "oe",
	"ŕ", "r", "ŗ", "r", "ř", "r", "ś", "s", "ŝ", "s", "ş", "s", "š", "s", "ș", "s", "ß", "ss",
	"ţ", "t", "ť", "t", "ŧ", "t", "ț", "t", "þ", "th",
	"ù", "u", "ú", "u", "û", "u", "ü", "u", "ũ", "u", "ū", "u", "ŭ", "u", "ů", "u", "ű", "u", "ų", "u",
	"ŵ", "w", "ý", "y", "ÿ", "y", "ŷ", "y", "ź", "z", "ż", "z", "ž", "z", "ſ", "s",
	"'", "", "’", "",
)
