package inventory_test

import (
	"encoding/json"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/inventorytest"
)

func TestTimesAsPeopleTypeThem(t *testing.T) {
	zone := time.FixedZone("", 3600)
	for text, want := range map[string]string{
		"2025-11-04 09:00":          "2025-11-04T08:00:00Z",
		"2025-11-04T09:00":          "2025-11-04T08:00:00Z",
		"2025-11-04 09:00:30":       "2025-11-04T08:00:30Z",
		"2025-11-04T09:00:00Z":      "2025-11-04T09:00:00Z",
		"2025-11-04T09:00:00-05:00": "2025-11-04T14:00:00Z",
		"2025-11-04T09:00:00.9Z":    "2025-11-04T09:00:00Z",
		" 2025-11-04 ":              "2025-11-03T23:00:00Z/2025-11-04T23:00:00Z",
		"2024-02":                   "2024-01-31T23:00:00Z/2024-02-29T23:00:00Z",
		"2025":                      "2024-12-31T23:00:00Z/2025-12-31T23:00:00Z",
		"2025/26":                   "2025-08-31T23:00:00Z/2026-08-31T23:00:00Z",
		"2025/2026":                 "2025-08-31T23:00:00Z/2026-08-31T23:00:00Z",
		"unknown":                   "unknown",
		"1990":                      "1989-12-31T23:00:00Z/1990-12-31T23:00:00Z",
		"2100":                      "2099-12-31T23:00:00Z/2100-12-31T23:00:00Z",
		"2100-12-31":                "2100-12-30T23:00:00Z/2100-12-31T23:00:00Z",
		"2100-12-31 23:59:59":       "2100-12-31T22:59:59Z",
	} {
		w, err := inventory.ParseWhen(text, zone)
		got, _ := w.MarshalText()
		if err != nil || string(got) != want {
			t.Errorf("%q is %s, %v, want %s", text, got, err, want)
		}
	}
	for _, text := range []string{
		"", "today", "2025-13", "2025-02-30", "25-11-04", "2025/27", "2025-11-04 25:00", "4.11.2025", "2025-11-4", "0025-11-04",
		"9999-12-31", "0001-01-01T00:00:00Z", "0000-01-01T00:00:00+10:00", "9999-12-31T23:59:59-10:00", "20252-01-01",
		"1989", "1989-12-31 23:59", "1989-12-31T22:59:59Z", "1989/90", "2100/01", "2101", "2101-01-01", "2100-12-31T23:00:00Z",
	} {
		if w, err := inventory.ParseWhen(text, zone); err == nil {
			t.Errorf("%q was read as %v", text, w)
		}
	}
}

func TestTimesGoThroughText(t *testing.T) {
	c := inventorytest.NewChance(t, ".", 3)
	for range 500 {
		w := c.When()
		text := inventorytest.AsJSON(t, w)
		var again inventory.When
		if err := json.Unmarshal([]byte(text), &again); err != nil || again != w {
			t.Fatalf("%s came back as %s, %v", text, inventorytest.AsJSON(t, again), err)
		}
	}
	for _, text := range []string{`""`, `"2025"`, `"2025-11-04T09:00:00Z/"`, `"2025-11-04T09:00:00Z/2025-11-03T09:00:00Z"`, `"/"`, `7`} {
		var w inventory.When
		if err := json.Unmarshal([]byte(text), &w); err == nil {
			t.Errorf("%s was read as %v", text, w)
		}
	}
}

func TestTimesAsTheySay(t *testing.T) {
	zone := time.FixedZone("", 3600)
	for text, want := range map[string][2]string{
		"2025-11-04 09:00": {"4 Nov 2025 09:00", "4 Nov 2025"},
		"2025-11-04":       {"4 Nov 2025", "4 Nov 2025"},
		"2025-11":          {"Nov 2025", "Nov 2025"},
		"2025":             {"2025", "2025"},
		"2025/26":          {"1 Sep 2025 to 31 Aug 2026", "1 Sep 2025 to 31 Aug 2026"},
		"unknown":          {"date unknown", "date unknown"},
	} {
		w, err := inventory.ParseWhen(text, zone)
		if err != nil || w.Say(zone) != want[0] || w.SayDay(zone) != want[1] {
			t.Errorf("%s: %q and %q, %v", text, w.Say(zone), w.SayDay(zone), err)
		}
	}
}

func TestOrderOfTimes(t *testing.T) {
	inOrder := []string{"unknown", "2025", "2025-11", "2025-11-01", "2025-11-01 00:00", "2025-11-01 07:00", "2025-11-02"}
	for i, a := range inOrder {
		for j, b := range inOrder {
			got := typedWhen(t, a).Compare(typedWhen(t, b))
			if want := map[bool]int{i < j: -1, i > j: 1}[true]; got != want {
				t.Errorf("%s and %s compare %d, want %d", a, b, got, want)
			}
		}
	}
	if typedWhen(t, "2025").Exact() || !typedWhen(t, "2025-11-04 09:00").Exact() || typedWhen(t, "unknown").Exact() {
		t.Error("only an instant is exact")
	}
}

func typedWhen(t *testing.T, text string) inventory.When {
	t.Helper()
	w, err := inventory.ParseWhen(text, time.UTC)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// The bounds are those of every zone together, so that a time that a person may type is
// never one that a book refuses.
func TestEventsOfOtherYears(t *testing.T) {
	for text, in := range map[string]bool{
		"1989-12-31T09:59:59Z": false, "1989-12-31T10:00:00Z": true, "2101-01-01T13:59:59Z": true, "2101-01-01T14:00:00Z": false,
		"2100-12-31T10:00:00Z/2101-01-01T10:00:00Z": true, "1970-01-01T00:00:00Z": false, "2025-01-01T00:00:00Z/2200-01-01T00:00:00Z": false,
		"unknown": true,
	} {
		var w inventory.When
		if err := w.UnmarshalText([]byte(text)); err != nil {
			t.Fatal(err)
		}
		e := inventory.Event{Happened: w, Noted: inventorytest.Now()}
		if e.InYears() != in {
			t.Errorf("%s happened in the years: %v", text, !in)
		}
		if e = (inventory.Event{Noted: w.Start}); !w.Unknown() && w.Exact() && e.InYears() != in {
			t.Errorf("%s was noted in the years: %v", text, !in)
		}
	}
	if (&inventory.Event{}).InYears() {
		t.Error("an event that was noted at no time is in the years")
	}
}
