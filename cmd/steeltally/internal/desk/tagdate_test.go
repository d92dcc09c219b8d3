package desk

import (
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/labels"
	"steeltally/templates"
)

// However vague a date is, it is written so that it fits on the tie-on tag.
func TestDatesOnTags(t *testing.T) {
	tag, err := templates.Embedded().Tag("tie-on")
	if err != nil {
		t.Fatal(err)
	}
	day := func(text string) time.Time {
		at, err := time.Parse("2006-01-02", text)
		if err != nil {
			t.Fatal(err)
		}
		return at
	}
	for want, when := range map[string]inventory.When{
		"28 NOV 2025": inventory.At(day("2025-11-28")),
		"27 SEP 2025": inventory.Between(day("2025-09-27"), day("2025-09-28")),
		"NOV 2024":    inventory.Between(day("2024-11-01"), day("2024-12-01")),
		"SEP 2024":    inventory.Between(day("2024-09-03"), day("2024-09-11")),
		"2024":        inventory.Between(day("2024-01-01"), day("2025-01-01")),
		"2023":        inventory.Between(day("2023-11-12"), day("2023-12-12")),
		"2023/24":     inventory.Between(day("2023-09-01"), day("2024-09-01")),
		"NO DATE":     {},
	} {
		got := sayTagDate(when, time.UTC)
		if got != want {
			t.Errorf("%s, want %s", got, want)
		}
		content := templates.Sample()
		content.DateOff = got
		if _, err := labels.Layout(tag, content, 203); err != nil {
			t.Errorf("%s: %v", got, err)
		}
	}
}
