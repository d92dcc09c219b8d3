package inventory

import (
	"errors"
	"fmt"
	"strconv"
	"strings"
	"testing"
)

// Vectors of ISO 7064 MOD 97-10 as published; the third is the worked legal entity
// identifier style example that is checked with the same pure system.
func TestCheckDigitsAgainstPublishedVectors(t *testing.T) {
	for digits, want := range map[string]int{"794": 44, "1733": 40, "100100100987654321131400": 85} {
		if got := CheckDigits(digits); got != want {
			t.Errorf("CheckDigits(%s) = %02d, want %02d", digits, got, want)
		}
		if full := fmt.Sprintf("%s%02d", digits, want); !CheckedDigits(full) {
			t.Errorf("%s is not accepted", full)
		}
	}
}

func TestNumberFormsAgree(t *testing.T) {
	n, err := NewNumber(KindRunner, 0, 427)
	if err != nil {
		t.Fatal(err)
	}
	if n.String() != "1000042744" || n.Short() != "R0-427-44" {
		t.Fatalf("got %s and %s", n, n.Short())
	}
	for _, text := range []string{"1000042744", " 1000042744\n", "R0-427-44", "r0-427-44", "R0 427 44", "R0-000427-44"} {
		got, err := ParseNumber(text)
		if err != nil || got != n {
			t.Errorf("ParseNumber(%q) = %s, %v", text, got, err)
		}
	}
	if n.Kind() != KindRunner || n.Station() != 0 || n.Running() != 427 {
		t.Errorf("parts: %v %d %d", n.Kind(), n.Station(), n.Running())
	}
}

func TestEveryWrongDigitAndSwapIsCaught(t *testing.T) {
	tried := 0
	for _, running := range []int{1, 9, 427, 90909, 123456, 999_999} {
		for kind := range Kind(10) {
			for station := range MaxStation + 1 {
				n, err := NewNumber(kind, station, running)
				if err != nil {
					continue
				}
				tried += refuteNeighbours(t, n.String())
			}
		}
	}
	if tried < 40_000 {
		t.Fatalf("only %d wrong numbers were tried", tried)
	}
}

// refuteNeighbours tries every single wrong digit and every swap of two digits.
func refuteNeighbours(t *testing.T, digits string) (tried int) {
	t.Helper()
	refuse := func(wrong []byte) {
		if string(wrong) == digits {
			return
		}
		tried++
		if n, err := ParseNumber(string(wrong)); err == nil {
			t.Fatalf("%s read as %s, for %s", wrong, n, digits)
		}
	}
	for i := range digits {
		for d := byte('0'); d <= '9'; d++ {
			wrong := []byte(digits)
			wrong[i] = d
			refuse(wrong)
		}
		for j := i + 1; j < len(digits); j++ {
			wrong := []byte(digits)
			wrong[i], wrong[j] = wrong[j], wrong[i]
			refuse(wrong)
		}
	}
	return tried
}

func TestForeignTextsAreRefusedWithTheReason(t *testing.T) {
	for text, reason := range map[string]string{
		"":                        "nothing",
		"4006381333931":           "13 digits",
		"1000042745":              "check digits",
		"8000042797":              "",
		"R0-427-45":               "check digits",
		"R0-427":                  "short number",
		"R0-4270000-44":           "short number",
		"Q0-427-44":               "not one of our numbers",
		"https://example.org/a":   "not one of our numbers",
		"１０００042744":              "not one of our numbers",
		"\x00\x1d100004274":       "not one of our numbers",
		strings.Repeat("9", 1000): "1000 digits",
	} {
		n, err := ParseNumber(text)
		var refused *NotANumber
		if !errors.As(err, &refused) || n != 0 {
			t.Errorf("%q gave %s, %v", text, n, err)
			continue
		}
		if !strings.Contains(err.Error(), reason) || len(err.Error()) > 300 {
			t.Errorf("%q: %q does not say %q", text, err, reason)
		}
	}
}

func TestNumbersOutOfRangeAreNotMade(t *testing.T) {
	for _, c := range []struct {
		kind             Kind
		station, running int
	}{{0, 1, 1}, {8, 1, 1}, {10, 1, 1}, {KindRunner, -1, 1}, {KindRunner, 10, 1}, {KindRunner, 1, 0}, {KindRunner, 1, 1_000_000}, {KindAction, 1, 1}} {
		if n, err := NewNumber(c.kind, c.station, c.running); err == nil {
			t.Errorf("NewNumber(%v, %d, %d) = %s", c.kind, c.station, c.running, n)
		}
	}
}

func FuzzParseNumber(f *testing.F) {
	for _, seed := range []string{"1000042744", "R0-427-44", "r1 1 00", "7100000134", "", "ñ0-1-11"} {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, text string) {
		n, err := ParseNumber(text)
		if err != nil {
			return
		}
		for _, form := range []string{n.String(), n.Short(), strconv.FormatUint(uint64(n), 10)} {
			if again, err := ParseNumber(form); err != nil || again != n {
				t.Fatalf("%q read as %s, whose form %q reads as %s, %v", text, n, form, again, err)
			}
		}
	})
}

// TestNumbersReadAsWritten reads every number back, and takes the quick way for exactly
// the texts that the careful one accepts.
func TestNumbersReadAsWritten(t *testing.T) {
	read := 0
	for value := uint64(1_000_000_000); value < 10_000_000_000; value += 9_973 {
		_, err := ParseNumber(strconv.FormatUint(value, 10))
		if quick := Number(value).wellFormed(); quick != (err == nil) {
			t.Fatalf("%d: quick %v, careful %v", value, quick, err)
		}
		if err == nil {
			read++
		}
	}
	if read < 5_000 {
		t.Errorf("only %d numbers were among those tried", read)
	}
	for running := 1; running < 2_000; running++ {
		n, err := NewNumber(KindRunner, 3, running)
		if err != nil || !n.wellFormed() {
			t.Fatalf("%s: %v", n, err)
		}
	}
}
