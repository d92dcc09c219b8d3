package jig

import (
	"testing"

	"steeltally/inventory"
)

func TestParseStock(t *testing.T) {
	for text, want := range map[string]stockLike{
		"Skua R 280":       {"Skua R", 280, ""},
		" Skua  H 272 l":   {"Skua H", 272, inventory.Left},
		"Skua 9 280 right": {"Skua 9", 280, inventory.Right},
	} {
		if got, err := parseStock(text); err != nil || got != want {
			t.Errorf("%q: %+v, %v; want %+v", text, got, err, want)
		}
	}
	for _, text := range []string{"", "280", "Skua", "Skua R", "left", "Skua R 280mm"} {
		if got, err := parseStock(text); err == nil {
			t.Errorf("%q: %+v", text, got)
		}
	}
}
