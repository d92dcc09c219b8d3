package inventory

import (
	"fmt"
	"iter"
	"reflect"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// mostTextRunes bounds what a person writes in a note or an answer.
const mostTextRunes = 2000

// Unseen gives the first character of a text that nobody can see: a control character,
// one that turns the direction of writing or breaks a line, one without a width, a byte
// that is no letter. The marks that join letters and signs, keep them apart or choose
// their look are seen where they stand between such letters.
func Unseen(text string) (string, bool) {
	for letter, unseen := range letters(text) {
		if unseen {
			return letter, true
		}
	}
	return "", false
}

// letters goes through a text letter by letter and tells which are unseen.
func letters(text string) iter.Seq2[string, bool] {
	return func(yield func(string, bool) bool) {
		for before, at := rune(0), 0; at < len(text); {
			r, size := utf8.DecodeRuneInString(text[at:])
			after, _ := utf8.DecodeRuneInString(text[at+size:])
			if !yield(text[at:at+size], isUnseen(before, r, after)) {
				return
			}
			before, at = r, at+size
		}
	}
}

func isUnseen(before, r, after rune) bool {
	const joins, parts = '\u200d', '\u200c'
	switch {
	case ' ' <= r && r <= '~':
		return false
	case r == joins, r == parts:
		return !isJoined(before) || !isJoined(after)
	case unicode.Is(unicode.Variation_Selector, r):
		return before == 0 || isIgnorable(before) || !unicode.IsGraphic(before)
	}
	return !unicode.IsGraphic(r) || r == utf8.RuneError || isIgnorable(r)
}

// isJoined tells whether a letter or sign can be joined to the next one: those of
// scripts that do so, and pictures.
func isJoined(r rune) bool {
	return r > unicode.MaxLatin1 && r != utf8.RuneError && unicode.IsGraphic(r) && !unicode.Is(unicode.Latin, r)
}

// isIgnorable tells whether a character is drawn as nothing at all (Unicode, the
// property Default_Ignorable_Code_Point).
func isIgnorable(r rune) bool {
	return unicode.Is(unicode.Other_Default_Ignorable_Code_Point, r) || unicode.Is(unicode.Variation_Selector, r)
}

// Visible writes a text so that everything in it can be seen: what is unseen stands
// there as its number, such as \u202e, and steers no screen.
func Visible(text string) string { return visible(text, "") }

// VisibleLines is Visible, but for the ends of lines.
func VisibleLines(text string) string { return visible(text, "\n") }

func visible(text, but string) string {
	var out strings.Builder
	for letter, unseen := range letters(text) {
		if unseen && letter != but {
			letter = strings.Trim(strconv.QuoteToASCII(letter), `"`)
		}
		out.WriteString(letter)
	}
	return out.String()
}

// CheckText refuses a text that nobody can see whole, or that is too long.
func CheckText(text string) error {
	const hint = "type it again in plain letters, on one line"
	if unseen, found := Unseen(text); found {
		return RefuseValue(fmt.Sprintf("%q has a character that nobody can see, %s", Clip(text), Visible(unseen)), hint)
	}
	if length := utf8.RuneCountInString(text); length > mostTextRunes {
		return RefuseValue(fmt.Sprintf("%q has %d letters; %d are possible", Clip(text), length, mostTextRunes), "write less")
	}
	return nil
}

// CheckWritten checks every text and every time that lies anywhere in a value, such as
// a body.
func CheckWritten(value any) error { return checkWritten(reflect.ValueOf(value)) }

func checkYears(w When) error {
	if w.inYears() {
		return nil
	}
	return RefuseValue(fmt.Sprintf("%s is no time that the record can be about", w.Say(time.UTC)), "check the date and the year")
}

func checkWritten(v reflect.Value) error {
	if v.IsValid() && v.Type() == reflect.TypeFor[time.Time]() {
		return nil // the name of its zone is no text of a person's
	}
	if v.IsValid() && v.Type() == reflect.TypeFor[When]() {
		return checkYears(v.Interface().(When))
	}
	switch v.Kind() {
	case reflect.String:
		return CheckText(v.String())
	case reflect.Pointer, reflect.Interface:
		if !v.IsNil() {
			return checkWritten(v.Elem())
		}
	case reflect.Struct:
		for i := range v.NumField() {
			if err := checkWritten(v.Field(i)); err != nil {
				return err
			}
		}
	case reflect.Slice, reflect.Array:
		for i := range v.Len() {
			if err := checkWritten(v.Index(i)); err != nil {
				return err
			}
		}
	case reflect.Map:
		for entries := v.MapRange(); entries.Next(); {
			if err := checkWritten(entries.Key()); err != nil {
				return err
			}
			if err := checkWritten(entries.Value()); err != nil {
				return err
			}
		}
	}
	return nil
}
