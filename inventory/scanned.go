package inventory

import (
	"fmt"
	"strings"
)

// AsScanned is what a symbol carries: the text that came, without the blanks around it and
// without the symbology identifier that a scanner can be set to send first (ISO/IEC 15424:
// ] and two characters, such as ]C1, ]d2, ]Q3). A tally that came in small letters, as
// under Caps Lock, is in capitals again.
func AsScanned(text string) string {
	s := strings.TrimSpace(text)
	if len(s) > symbologyIdentifier && s[0] == ']' && isASCIILetter(s[1]) && (isASCIILetter(s[2]) || allDigits(s[2:3])) {
		s = strings.TrimSpace(s[symbologyIdentifier:])
	}
	if tally := strings.ToUpper(s); IsTally(tally) {
		return tally
	}
	return s
}

const symbologyIdentifier = 3

func isASCIILetter(c byte) bool { return 'a' <= c|0x20 && c|0x20 <= 'z' }

// ScannedNumber is the piece number in a scanned text: the number itself, or the one in a
// tally whose check digits fit.
func ScannedNumber(text string) (Number, error) {
	s := AsScanned(text)
	if !IsTally(s) {
		return ParseNumber(text)
	}
	tally, err := ParseTally(s)
	return tally.Piece, err
}

// digitRows are what the keys 1 to 9 and 0 type where it is not those digits, with and
// without the shift key (xkeyboard-config 2.35, the layouts named).
var digitRows = [...]string{
	`&é"'(-è_çà`, // French; with it the row of the Belgian one
	`&é"'(§è!çà`,
	`+ěščřžýáíé`, // Czech
	`+ľščťžýáíé`, // Slovak
	`ąčęėįšųū„“`, // Lithuanian
	`ĄČĘĖĮŠŲŪ()`,
	`123456789ö`, // Hungarian
	`'"+!%/=()Ö`,
	`!@#$%^&*()`, // with shift: United States
	`!"£$%^&*()`, // United Kingdom
	`!"§$%&/()=`, // German
	`!"#¤%&/()=`, // Danish, Estonian, Finnish, Norwegian, Swedish
	`!"#$%&/()=`, // Croatian, Icelandic, Portuguese, Slovene
	`!"·$%&/()=`, // Spanish
	`!"£$%&/()=`, // Italian
	`+"*ç%&/()=`, // Swiss
	`!"/$%?&*()`, // Canadian
	`!"#$%&_()'`, // Dutch
	`!"№;%:?*()`, // Russian, Ukrainian, Belarusian
	`"әіңғ,.үұқ`, // Kazakh
	`!ӘІҢҒ;:ҮҰҚ`,
	`!"#$%&'()~`, // Japanese
}

// OtherLayout tells whether a text is what another keyboard layout types for the ten
// digits of a number.
func OtherLayout(text string) bool {
	s := strings.TrimSpace(text)
	if allDigits(s) || len([]rune(s)) != numberDigits {
		return false
	}
	for _, row := range digitRows {
		if strings.Trim(s, row) == "" {
			return true
		}
	}
	return false
}

// otherLayout is why such a text is not read: which layout it was can't be known for sure.
func otherLayout(text string) error {
	return &NotANumber{text, fmt.Sprintf("the scanner types for another keyboard layout: set its keyboard language to that of this machine (%s)", "steeltally scan --self-test")}
}
