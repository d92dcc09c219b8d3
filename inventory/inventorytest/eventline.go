package inventorytest

import (
	"encoding/json"
	"testing"

	"steeltally/inventory"
)

// EventLine is an event of one kind as a program of any version would write it.
func EventLine(kind, body string) string {
	return `{"writer":"00000000000000c3","seq":1,"logical":900,"happened":"2025-11-05T07:00:00Z","noted":"2025-11-05T07:00:00Z","kind":"` +
		kind + `","body":` + body + `}`
}

// ReadEvent reads an event.
func ReadEvent(t *testing.T, text string) inventory.Event {
	t.Helper()
	var e inventory.Event
	if err := json.Unmarshal([]byte(text), &e); err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return e
}
