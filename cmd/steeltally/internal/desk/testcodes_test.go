package desk

import (
	"strings"
	"testing"
	"unicode/utf8"

	"steeltally/inventory"
	"steeltally/labels/symbol"
)

// The codes of the test are no piece's, nor anybody's; they are drawn module by module.
func TestTestCodes(t *testing.T) {
	codes, err := TestCodes()
	if err != nil || len(codes) != 3 {
		t.Fatalf("%d codes, %v", len(codes), err)
	}
	for _, code := range codes {
		if n, err := inventory.ScannedNumber(code.Text); err == nil {
			t.Errorf("%s is the number %s", code.Title, n.Short())
		}
		if svg := code.SVG(); strings.Count(svg, "h") < 20 || !strings.Contains(svg, code.Title) {
			t.Errorf("%s: %s", code.Title, svg)
		}
		dark := 0
		for _, line := range code.blocks() {
			for _, sign := range line {
				dark += strings.Count("▄▀▐▌██", string(sign))
			}
			if utf8.RuneCountInString(line) > 80 {
				t.Errorf("%s: a line of %d characters", code.Title, utf8.RuneCountInString(line))
			}
		}
		want := 0
		for row := range code.symbol.Rows {
			for column := range code.symbol.Columns {
				if code.symbol.Dark(column, row) {
					want++
				}
			}
		}
		if code.symbol.Symbology == symbol.Code128 {
			want *= len(code.blocks())
		}
		if dark != want {
			t.Errorf("%s: %d dark modules are drawn, want %d", code.Title, dark, want)
		}
	}
}
