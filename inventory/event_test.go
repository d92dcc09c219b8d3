package inventory

import (
	"encoding/json"
	"reflect"
	"strings"
	"testing"
)

func TestEventsOfEveryKindGoThroughJSON(t *testing.T) {
	c := newChance(t, 1)
	for _, kind := range c.kinds {
		for range 200 {
			e := c.event()
			e.Body = c.body(kind)
			text := asJSON(t, &e)
			var again Event
			if err := json.Unmarshal([]byte(text), &again); err != nil {
				t.Fatalf("%s: %v", text, err)
			}
			if !reflect.DeepEqual(e, again) || again.Newer() {
				t.Fatalf("%s came back as %s", text, asJSON(t, &again))
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
		var e Event
		if err := e.UnmarshalJSON([]byte(text)); err == nil {
			t.Errorf("%s was read as %+v", text, e)
		}
	}
}

func TestKeysInWords(t *testing.T) {
	for text, want := range map[string]Key{"812@c3a9f2d18b774e60": {"c3a9f2d18b774e60", 812}, "": {}} {
		var k Key
		if err := k.UnmarshalText([]byte(text)); err != nil || k != want {
			t.Errorf("%q: %v, %v", text, k, err)
		}
		if again, _ := k.MarshalText(); string(again) != text {
			t.Errorf("%q came back as %q", text, again)
		}
	}
	if got := (Key{"c3a9f2d18b774e60", 812}).String(); got != "812@c3a9" {
		t.Errorf("people see %q", got)
	}
	for _, text := range []string{"812", "@c3a9", "12x@c3a9", "-1@c3a9", "812@", "0x1@c3a9"} {
		var k Key
		if err := k.UnmarshalText([]byte(text)); err == nil {
			t.Errorf("%q was read as %v", text, k)
		}
	}
}

// line is an event of one kind as a program of any version would write it.
func line(kind, body string) string {
	return `{"writer":"00000000000000c3","seq":1,"logical":900,"happened":"2025-11-05T07:00:00Z","noted":"2025-11-05T07:00:00Z","kind":"` +
		kind + `","body":` + body + `}`
}

func read(t *testing.T, text string) Event {
	t.Helper()
	var e Event
	if err := json.Unmarshal([]byte(text), &e); err != nil {
		t.Fatalf("%s: %v", text, err)
	}
	return e
}

func TestKindsOfANewerProgramAreCarriedAndFlagged(t *testing.T) {
	c := openClubhouse(t)
	high, _ := NewNumber(KindRunner, 1, 500)
	text := line("loan", `{"to":"Cold Sound","pieces":["`+high.String()+`",{"pair":"`+c.pair.String()+`"}],"days":3}`)
	e := read(t, text)
	if got := asJSON(t, &e); got != text {
		t.Errorf("it came back as %s", got)
	}
	c.Add(e)
	c.flagged(c.pair, "newer program")
	c.flagged(high, "newer program")
	c.refuses("6 07:00", TakeRunnerOut{Runner: high, Reason: "low"}, "not in this book")
	if n := c.stock(KindRunner, "Model R", "", 1)[0]; n.Running() != 501 {
		t.Errorf("after %s comes %s: the newer program's number was given again", high.Short(), n.Short())
	}
	if said := (Teller{&c.Ledger}).Line(&e); said != "an entry of a newer program: loan" {
		t.Errorf("it reads %q", said)
	}
}

func TestNewerKindsThatNamePiecesOfNobodyAreFlaggedOnTheClub(t *testing.T) {
	for _, text := range []string{line("wheel", `{"grit":80}`), line("wheel", `null`), line("wheel", `[]`), line("grind", `"x"`), line("grind", `null`)} {
		c := openClubhouse(t)
		e := read(t, text)
		if got := asJSON(t, &e); got != text {
			t.Errorf("%s came back as %s", text, got)
		}
		c.Add(e)
		if flags := ClubOf(&c.Ledger).Flags(); len(flags) != 1 || flags[0].Keys[0] != e.Key {
			t.Errorf("%s: flags %v", text, flags)
		}
	}
	bare := read(t, strings.Replace(line("wheel", `1`), `,"body":1`, ``, 1))
	if got := asJSON(t, &bare); got != line("wheel", `null`) {
		t.Errorf("an event without a body came back as %s", got)
	}
}

func TestFieldsOfANewerProgramAreCarriedAndFlagged(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	runner := c.runners[0].String()
	body := `{"player":"` + c.bo.String() + `","pair":"` + c.pair.String() + `","work":"grind","left":{"runner":"` + runner + `","passes":7,"grit":80},"coolant":"dry"}`
	text := strings.Replace(line("grind", body), `"kind"`, `"zeal":{"a":[1,2]},"kind"`, 1)
	e := read(t, text)
	if !e.Newer() {
		t.Fatal("nothing newer was seen in it")
	}
	got := asJSON(t, &e)
	if !sameJSON(t, got, text) || !strings.Contains(got, `"coolant":"dry"`) {
		t.Errorf("it came back as %s", got)
	}
	c.Add(e)
	c.wearOf(c.runners[0], 1, 7) // what can be read counts
	c.flagged(c.runners[0], "newer program")
	c.flagged(c.bo, "newer program")
	again := read(t, got)
	if !reflect.DeepEqual(e, again) {
		t.Errorf("read again it is %+v", again)
	}
}

// The checksum of a journal's line is no field of the event.
func TestTheChecksumOfALineIsNoFieldOfTheEvent(t *testing.T) {
	text := line("put", `{"pieces":null,"place":{"name":"bin"}}`)
	e := read(t, strings.TrimSuffix(text, "}")+`,"crc32c":"01234567"}`)
	if got := asJSON(t, &e); e.Newer() || got != text {
		t.Errorf("newer %v: %s", e.Newer(), got)
	}
	e = read(t, strings.TrimSuffix(text, "}")+`,"zeal":1,"crc32c":"01234567"}`)
	if got := asJSON(t, &e); !e.Newer() || got != strings.TrimSuffix(text, "}")+`,"zeal":1}` {
		t.Errorf("newer %v: %s", e.Newer(), got)
	}
}

func sameJSON(t *testing.T, a, b string) bool {
	t.Helper()
	var x, y any
	if json.Unmarshal([]byte(a), &x) != nil || json.Unmarshal([]byte(b), &y) != nil {
		t.Fatalf("no JSON: %s / %s", a, b)
	}
	return reflect.DeepEqual(x, y)
}
