package symbol

import (
	"errors"
	"testing"
)

// The worked example of ISO/IEC 18004, Annex I: "01234567" as version 1-M. Its data
// and error correction codewords and its mask are read back from the modules.
func TestQRWorkedExample(t *testing.T) {
	s, err := EncodeQR("01234567", "M", 0)
	if err != nil {
		t.Fatal(err)
	}
	if s.Version != 1 || s.Columns != 21 || s.Rows != 21 {
		t.Fatalf("version %d, %d x %d modules, want version 1, 21 x 21", s.Version, s.Columns, s.Rows)
	}
	mask := maskOf(s)
	if mask != 2 {
		t.Errorf("mask %d, the standard's example has 2", mask)
	}
	want := []byte{
		0x10, 0x20, 0x0C, 0x56, 0x61, 0x80, 0xEC, 0x11, 0xEC, 0x11, 0xEC, 0x11, 0xEC, 0x11, 0xEC, 0x11,
		0xA5, 0x24, 0xD4, 0xC1, 0xED, 0x36, 0xC7, 0x87, 0x2C, 0x55,
	}
	got := codewordsOfVersion1(s, mask)
	if string(got) != string(want) {
		t.Errorf("codewords\n% X, want\n% X", got, want)
	}
}

// maskOf reads the mask from the format information beside the top left finder
// (ISO/IEC 18004, 7.9: the second to fourth of its bits, after taking off the format
// mask 101010000010010).
func maskOf(s Symbol) int {
	bits := 0
	for _, column := range []int{2, 3, 4} {
		bits <<= 1
		if s.Dark(column, 8) {
			bits |= 1
		}
	}
	return bits ^ 0b101
}

// codewordsOfVersion1 walks the two-module columns from the bottom right as the
// standard places the codewords (7.7.3), and takes the mask off (table 10).
func codewordsOfVersion1(s Symbol, mask int) []byte {
	masked := []func(i, j int) bool{
		func(i, j int) bool { return (i+j)%2 == 0 },
		func(i, _ int) bool { return i%2 == 0 },
		func(_, j int) bool { return j%3 == 0 },
		func(i, j int) bool { return (i+j)%3 == 0 },
	}[mask]
	var words []byte
	var word byte
	bits, upwards := 0, true
	for right := 20; right > 0; right -= 2 {
		if right == 6 {
			right--
		}
		for step := range 21 {
			row := step
			if upwards {
				row = 20 - step
			}
			for _, column := range []int{right, right - 1} {
				if functionModule(column, row) {
					continue
				}
				word <<= 1
				if s.Dark(column, row) != masked(row, column) {
					word |= 1
				}
				if bits++; bits%8 == 0 {
					words, word = append(words, word), 0
				}
			}
		}
		upwards = !upwards
	}
	return words
}

// functionModule tells whether a module of version 1 belongs to a finder, a
// separator, a timing pattern or the format information.
func functionModule(column, row int) bool {
	left, top := column <= 8, row <= 8
	right, bottom := column >= 13, row >= 13
	return left && top || right && top || left && bottom || column == 6 || row == 6
}

func TestQRRefuses(t *testing.T) {
	if _, err := EncodeQR("", "M", 0); !errors.Is(err, ErrNoText) {
		t.Errorf("empty text: %v", err)
	}
	if _, err := EncodeQR("1", "X", 0); err == nil {
		t.Error("level X was taken")
	}
	if _, err := EncodeQR("1000042744100004274410000427441000042744", "H", 1); err == nil {
		t.Error("forty digits were taken for a version 1-H")
	}
}

// Table 7 of ISO/IEC 18004 (capacities from memory): characters that still fit.
func TestSmallestVersionAtItsLimits(t *testing.T) {
	cases := []struct {
		length  int
		letter  string
		level   Level
		version int
	}{
		{17, "1", "H", 1}, {18, "1", "H", 2},
		{10, "A", "H", 1}, {11, "A", "H", 2},
		{61, "A", "M", 3}, {62, "A", "M", 4},
		{90, "A", "M", 4}, {91, "A", "M", 5},
		{67, "A", "Q", 4}, {68, "A", "Q", 5},
		{14, "a", "M", 1}, {15, "a", "M", 2},
	}
	for _, c := range cases {
		text := ""
		for range c.length {
			text += c.letter
		}
		if got := smallestVersion(text, c.level); got != c.version {
			t.Errorf("%d of %q at %s: version %d, want %d", c.length, c.letter, c.level, got, c.version)
		}
		s, err := EncodeQR(text, c.level, 0)
		if err != nil || s.Version != c.version {
			t.Errorf("%d of %q at %s: the encoder takes version %d (%v), want %d", c.length, c.letter, c.level, s.Version, err, c.version)
		}
	}
	if smallestVersion(string(make([]byte, 3000)), "H") != 0 {
		t.Error("3,000 bytes were said to fit at level H")
	}
}
