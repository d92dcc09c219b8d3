package inventory_test

import (
	"strings"
	"testing"

	"steeltally/inventory"
)

// Symbology identifiers stand in front of what a symbol carries (ISO/IEC 15424, where
// each symbology has its letter).
func TestSymbologyIdentifiers(t *testing.T) {
	const number inventory.Number = 1000042744
	tally := inventory.Tally{Piece: number, Generation: 1, Reason: "LOW"}.String()
	for _, identifier := range []string{"", "]C0", "]C1", "]d1", "]d2", "]Q1", "]Q3", "]q3", "]D2", "]A0", "]XF", "]e0", " ]C1", "]C1 "} {
		for _, text := range []string{number.String(), number.Short(), tally, strings.ToLower(tally), " " + tally + "\r\n"} {
			if n, err := inventory.ScannedNumber(identifier + text); err != nil || n != number {
				t.Errorf("%q: %d, %v", identifier+text, n, err)
			}
		}
	}
	for text, reason := range map[string]string{
		"]E04006381333931":         "13 digits",
		"]C10104006381333931":      "16 digits",
		"]C101040063813339\x1d10A": "not one of our numbers",
		"]d11000042745":            "check digits do not fit",
		"]1000042744":              "not one of our numbers",
		"]C]C11000042744":          "not one of our numbers",
		"]C1]C11000042744":         "not one of our numbers",
		"]C1":                      "not one of our numbers",
		"]Q3" + tally[1:]:          "not one of our numbers",
		"]Q3" + tally[:30] + "..":  "check digits do not fit",
	} {
		if n, err := inventory.ScannedNumber(text); err == nil || !strings.Contains(err.Error(), reason) {
			t.Errorf("%q: %d, %v; want %s", text, n, err, reason)
		}
	}
}

// What another keyboard layout types for ten digits is refused with the remedy; what is
// like it is only not known.
func TestDigitsOfAnotherLayout(t *testing.T) {
	rows := []string{`à&é"'(-è_ç`, `é+ěščřžýáí`, `é+ľščťžýáí`, `ö123456789`, `)!@#$%^&*(`, `=!"§$%&/()`, `=!"#¤%&/()`, `“ąčęėįšųū„`}
	for _, row := range rows {
		keys := []rune(row)
		var typed strings.Builder
		for _, digit := range "1000042744" {
			typed.WriteRune(keys[digit-'0'])
		}
		for _, text := range []string{typed.String(), "]C1" + typed.String(), " " + typed.String() + " "} {
			n, err := inventory.ScannedNumber(text)
			if err == nil || !strings.Contains(err.Error(), "another keyboard layout") {
				t.Errorf("%q: %d, %v", text, n, err)
			}
		}
	}
	for _, text := range []string{"1000042744", "", "ö", "gräsö", `&é"'(-è_ç`, `à&é"'(-è_çà`, "abcdefghij", "1000042745", "0123456789"} {
		if inventory.OtherLayout(text) {
			t.Errorf("%q is taken for another layout's", text)
		}
	}
}
