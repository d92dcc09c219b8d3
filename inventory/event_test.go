package inventory_test

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/inventorytest"
)

func TestEventsOfEveryKindGoThroughJSON(t *testing.T) {
	c := inventorytest.NewChance(t, ".", 1)
	for _, kind := range c.Kinds {
		for range 200 {
			e := c.Event()
			e.Body = c.Body(kind)
			text := inventorytest.AsJSON(t, &e)
			var again inventory.Event
			if err := json.Unmarshal([]byte(text), &again); err != nil {
				t.Fatalf("%s: %v", text, err)
			}
			if !reflect.DeepEqual(e, again) || again.Newer() {
				t.Fatalf("%s came back as %s", text, inventorytest.AsJSON(t, &again))
			}
		}
	}
}

func TestEventsThatAreNone(t *testing.T) {
	for _, text := range []string{
		``, `{}`, `[]`, `{"writer":"a1","seq":1}`, `{"writer":"a1","kind":"grind","body":{}}`, `{"seq":1,"kind":"grind","body":{}}`,
		`{"writer":"a1","seq":1,"logical":1,"happened":"yesterday","noted":"2025-11-01T00:00:00Z","kind":"grind","body":{}}`,
		`{"writer":"a1","seq":1,"logical":1,"happened":"unknown","noted":"2025-11-01T00:00:00Z","kind":"grind","body":{}} x`,
		`{"writer":"a1","seq":1,"logical":1,"happened":"9999-12-31T23:00:00-02:00","noted":"2025-11-01T00:00:00Z","kind":"grind","body":{}}`,
		`{"writer":"a1","seq":1,"logical":1,"happened":"0000-01-01T00:00:00+02:00","noted":"2025-11-01T00:00:00Z","kind":"grind","body":{}}`,
		`{"writer":"a1","seq":1,"logical":1,"happened":"unknown","noted":"9999-12-31T23:00:00-02:00","kind":"grind","body":{}}`,
	} {
		var e inventory.Event
		if err := e.UnmarshalJSON([]byte(text)); err == nil {
			t.Errorf("%s was read as %+v", text, e)
		}
	}
}

func TestKeysInWords(t *testing.T) {
	for text, want := range map[string]inventory.Key{"812@c3a9f2d18b774e60": {Writer: "c3a9f2d18b774e60", Sequence: 812}, "": {}} {
		var k inventory.Key
		if err := k.UnmarshalText([]byte(text)); err != nil || k != want {
			t.Errorf("%q: %v, %v", text, k, err)
		}
		if again, _ := k.MarshalText(); string(again) != text {
			t.Errorf("%q came back as %q", text, again)
		}
	}
	if got := (inventory.Key{Writer: "c3a9f2d18b774e60", Sequence: 812}).String(); got != "812@c3a9" {
		t.Errorf("people see %q", got)
	}
	for _, text := range []string{"812", "@c3a9", "12x@c3a9", "-1@c3a9", "812@", "0x1@c3a9"} {
		var k inventory.Key
		if err := k.UnmarshalText([]byte(text)); err == nil {
			t.Errorf("%q was read as %v", text, k)
		}
	}
}

// The checksum of a journal's line is no field of the event.
func TestTheChecksumOfALineIsNoFieldOfTheEvent(t *testing.T) {
	text := inventorytest.EventLine("put", `{"pieces":null,"place":{"name":"bin"}}`)
	e := inventorytest.ReadEvent(t, strings.TrimSuffix(text, "}")+`,"crc32c":"01234567"}`)
	if got := inventorytest.AsJSON(t, &e); e.Newer() || got != text {
		t.Errorf("newer %v: %s", e.Newer(), got)
	}
	e = inventorytest.ReadEvent(t, strings.TrimSuffix(text, "}")+`,"zeal":1,"crc32c":"01234567"}`)
	if got := inventorytest.AsJSON(t, &e); !e.Newer() || got != strings.TrimSuffix(text, "}")+`,"zeal":1}` {
		t.Errorf("newer %v: %s", e.Newer(), got)
	}
}
