// Package inventory knows what the pieces are, what happened to them and what that comes
// to. It is pure: no clock, no file, no printer. What may happen next is for deeds.
package inventory

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
)

// Number is a piece number: the ten digits K S NNNNNN CC (kind, station, running
// number, check digits) read as one whole number. The zero Number names nothing.
// Every other value in circulation came from NewNumber or ParseNumber and is valid.
type Number uint64

// Kind is what a number is given to.
type Kind uint8

// The kinds, by the first digit of a number.
const (
	KindRunner Kind = 1
	KindHolder Kind = 2
	KindPair   Kind = 3
	KindSet    Kind = 4
	KindTrunk  Kind = 5
	KindBin    Kind = 6
	KindPlayer Kind = 7
	KindAction Kind = 9
)

// kindNames gives each kind its word and the letter of its short form; a player is
// Y because P is a pair.
var kindNames = [...]struct {
	word   string
	letter byte
}{
	KindRunner: {"runner", 'R'},
	KindHolder: {"holder", 'H'},
	KindPair:   {"pair", 'P'},
	KindSet:    {"set", 'S'},
	KindTrunk:  {"trunk", 'T'},
	KindBin:    {"bin", 'B'},
	KindPlayer: {"player", 'Y'},
	KindAction: {"action", 'A'},
}

// String is the kind's word: "runner".
func (k Kind) String() string {
	if !k.known() {
		return "unknown kind " + strconv.Itoa(int(k))
	}
	return kindNames[k].word
}

func (k Kind) known() bool { return int(k) < len(kindNames) && kindNames[k].word != "" }

const (
	numberDigits = 10
	// MaxStation is the highest station digit.
	MaxStation = 9
	// MaxRunning is the highest running number that one kind has at one station.
	MaxRunning = 999_999
)

// NewNumber makes the number of a kind, a station digit 0–9 and a running number
// 1–999,999. Actions belong to no station: theirs is 0.
func NewNumber(kind Kind, station, running int) (Number, error) {
	switch {
	case !kind.known():
		return 0, fmt.Errorf("there is no kind %d", kind)
	case station < 0 || station > MaxStation:
		return 0, fmt.Errorf("station %d: a station digit is 0 to %d", station, MaxStation)
	case running < 1 || running > MaxRunning:
		return 0, fmt.Errorf("running number %d: 1 to %d can be given", running, MaxRunning)
	case kind == KindAction && station != 0:
		return 0, fmt.Errorf("station %d: actions have station digit 0", station)
	}
	return assemble(kind, station, running), nil
}

func assemble(kind Kind, station, running int) Number {
	stem := (uint64(kind)*10+uint64(station))*(MaxRunning+1) + uint64(running)
	return Number(stem*100 + uint64(CheckDigits(strconv.FormatUint(stem, 10))))
}

// Kind is the kind that the number's first digit says.
func (n Number) Kind() Kind { return Kind(n / 1_000_000_000) }

// Station is the number's station digit.
func (n Number) Station() int { return int(n / 100_000_000 % 10) }

// Running is the number's running number.
func (n Number) Running() int { return int(n / 100 % (MaxRunning + 1)) }

// String is the long form: ten digits, as symbols carry them.
func (n Number) String() string {
	if n == 0 {
		return ""
	}
	return fmt.Sprintf("%0*d", numberDigits, uint64(n))
}

// Short is the form for people: R0-427-44.
func (n Number) Short() string {
	if n == 0 || !n.Kind().known() {
		return ""
	}
	return fmt.Sprintf("%c%d-%d-%02d", kindNames[n.Kind()].letter, n.Station(), n.Running(), uint64(n)%100)
}

// MarshalText writes the long form.
func (n Number) MarshalText() ([]byte, error) { return []byte(n.String()), nil }

// UnmarshalText reads either form; the empty text is the zero Number.
func (n *Number) UnmarshalText(text []byte) error {
	if len(text) == 0 {
		*n = 0
		return nil
	}
	if value, err := strconv.ParseUint(string(text), 10, 64); err == nil && Number(value).wellFormed() {
		*n = Number(value) // states hold many numbers, and reading them takes most of a look
		return nil
	}
	parsed, err := ParseNumber(string(text))
	*n = parsed
	return err
}

// wellFormed tells whether a value is one that NewNumber gives: its check digits make
// it 1 modulo 97 (ISO 7064), written as 00 to 96.
func (n Number) wellFormed() bool {
	return n.Kind().known() && n.Running() > 0 && n%97 == 1 && n%100 < 97 && (n.Kind() != KindAction || n.Station() == 0)
}

// NotANumber says why a text is not a piece number. Its message ends with what to do.
type NotANumber struct{ Text, Reason string }

func (e *NotANumber) Error() string { return fmt.Sprintf("%q: %s", Clip(e.Text), e.Reason) }

// Clip keeps a foreign barcode of a thousand characters from filling the screen, and
// one of control characters from steering it.
func Clip(text string) string {
	const most = 40
	runes := []rune(strings.Map(plainRune, text))
	if len(runes) <= most {
		return string(runes)
	}
	return string(runes[:most]) + "…"
}

func plainRune(r rune) rune {
	if unicode.IsPrint(r) {
		return r
	}
	return '·'
}

// ParseNumber reads a long form (1000042744) or a short form (R0-427-44, any case,
// blanks for dashes). Anything else is a *NotANumber with the reason.
func ParseNumber(text string) (Number, error) {
	s := AsScanned(text)
	switch {
	case s == "":
		return 0, &NotANumber{text, "nothing was scanned or typed"}
	case allDigits(s):
		return parseLong(text, s)
	case looksShort(s):
		return parseShort(text, s)
	case OtherLayout(s):
		return 0, otherLayout(text)
	}
	return 0, &NotANumber{text, "not one of our numbers; ours have ten digits, or a letter and three groups such as R0-427-44"}
}

func parseLong(text, digits string) (Number, error) {
	if len(digits) != numberDigits {
		return 0, &NotANumber{text, fmt.Sprintf("%d digits; ours have ten: scan again, or type it from the tag", len(digits))}
	}
	if !CheckedDigits(digits) {
		return 0, &NotANumber{text, "the check digits do not fit: a digit is wrong, or it is somebody else's barcode; scan again"}
	}
	value, err := strconv.ParseUint(digits, 10, 64)
	if err != nil {
		return 0, &NotANumber{text, "not a number"}
	}
	return validated(text, Number(value))
}

// validated refuses what has good check digits but no meaning here.
func validated(text string, n Number) (Number, error) {
	made, err := NewNumber(n.Kind(), n.Station(), n.Running())
	if err != nil {
		return 0, &NotANumber{text, "the check digits fit, but it is not one of ours: " + err.Error()}
	}
	if made != n {
		return 0, &NotANumber{text, "the check digits do not fit: scan again"}
	}
	return n, nil
}

// looksShort tells whether a text starts as a short form does: letter, digit, mark.
func looksShort(s string) bool {
	return len(s) > 3 && kindOfLetter(s[0]) != 0 && allDigits(s[1:2]) && (s[2] == '-' || s[2] == ' ')
}

func kindOfLetter(letter byte) Kind {
	for kind, name := range kindNames {
		if name.letter != 0 && name.letter == letter&^0x20 {
			return Kind(kind)
		}
	}
	return 0
}

func parseShort(text, s string) (Number, error) {
	groups := strings.FieldsFunc(s[1:], func(r rune) bool { return r == '-' || r == ' ' })
	malformed := &NotANumber{text, "a short number is a letter and three groups of digits, such as R0-427-44"}
	if len(groups) != 3 || len(groups[1]) > 6 || len(groups[2]) != 2 {
		return 0, malformed
	}
	for _, group := range groups {
		if !allDigits(group) {
			return 0, malformed
		}
	}
	digits := fmt.Sprintf("%d%s%0*s%s", kindOfLetter(s[0]), groups[0], 6, groups[1], groups[2])
	if len(digits) != numberDigits {
		return 0, malformed
	}
	return parseLong(text, digits)
}

func allDigits(s string) bool {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return s != ""
}

// KindNamed is the kind of a word such as "runner", or 0.
func KindNamed(word string) Kind {
	for kind, name := range kindNames {
		if name.word == word && word != "" {
			return Kind(kind)
		}
	}
	return 0
}

// CheckDigits computes the two check digits 0–96 (written with two digits) that
// ISO 7064 MOD 97-10 appends to a string of decimal digits.
// It panics on nothing: a character that is no digit counts as its value modulo ten.
func CheckDigits(digits string) int {
	return (98 - mod97(digits)*100%97) % 97
}

// CheckedDigits tells whether a string of digits ends in its MOD 97-10 check digits, as
// CheckDigits writes them: 97 and 98 would leave the same rest as 00 and 01.
func CheckedDigits(digits string) bool {
	return len(digits) > 2 && mod97(digits) == 1 && digits[len(digits)-2:] < "97"
}

func mod97(digits string) int {
	rest := 0
	for i := range len(digits) {
		rest = (rest*10 + int(digits[i]-'0')%10) % 97
	}
	return rest
}
