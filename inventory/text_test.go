package inventory_test

import (
	"encoding/json"
	"strings"
	"testing"
	"unicode/utf8"

	"steeltally/inventory"
	"steeltally/inventory/inventorytest"
)

// attacks are texts that steer a screen or hide something.
func attacks() map[string]string {
	return map[string]string{
		"escape":               "Ina\x1b[2J",
		"bell":                 "Ina\a",
		"line":                 "Ina\nall is well",
		"return":               "DO NOT SKATE\rall is well ",
		"tab":                  "Ina\tBerg",
		"nothing":              "Ina\x00",
		"delete":               "Ina\x7f",
		"control sequence":     "Ina\u009b2J",
		"direction turned":     "Ina\u202egreB",
		"direction set apart":  "Ina\u2067greB\u2069",
		"direction mark":       "Ina\u200f",
		"no width":             "I\u200bna",
		"no break":             "I\ufeffna",
		"soft hyphen":          "I\u00adna",
		"joined without need":  "I\u200dna",
		"parted without need":  "I\u200cna",
		"joiner at the end":    "🏒\u200d",
		"line of another sort": "Ina\u2028Berg",
		"filler":               "Ina\u3164",
		"tag letters":          "Ina\U000e0041",
		"two looks":            "🏒\ufe0f\ufe0f",
		"look of nothing":      "\ufe0f",
		"lost letter":          "Bj\ufffdrn",
		"Windows-1252":         "Bj\xf8rn",
		"cut letter":           "Bj\xc3",
		"private":              "Ina\ue000",
	}
}

func TestCheckText(t *testing.T) {
	for name, text := range attacks() {
		if inventory.CheckText(text) == nil {
			t.Errorf("%s: %q is taken", name, text)
		}
		shown := inventory.Visible(text)
		if _, found := inventory.Unseen(shown); found || shown == text {
			t.Errorf("%s: shown as %q", name, shown)
		}
	}
	for _, text := range []string{
		"", "Ansgar Lindqvarn", "Bjørn Čapek-Łoś", "Иван", "山田 太郎", "جعفر", "می\u200cخواهم", "क्\u200dष", "🏒", "👩\u200d🔧", "🏳️\u200d🌈", "1️⃣", "e\u0301", "17 L III, nicked; “low”",
	} {
		if err := inventory.CheckText(text); err != nil {
			t.Errorf("%q: %v", text, err)
		}
		if shown := inventory.Visible(text); shown != text {
			t.Errorf("%q is shown as %q", text, shown)
		}
	}
	if inventory.CheckText(strings.Repeat("ø", 2000)) != nil || inventory.CheckText(strings.Repeat("ø", 2001)) == nil {
		t.Error("the length is not bounded at 2,000 letters")
	}
	if got := inventory.VisibleLines("a\x1b[1m\nb\r\n"); got != `a\x1b[1m`+"\nb"+`\r`+"\n" {
		t.Errorf("lines are shown as %q", got)
	}
}

// Whatever text or time a body of any kind holds, and however deep, it is checked.
func TestEveryTextAndTimeOfEveryBodyIsChecked(t *testing.T) {
	c := inventorytest.NewChance(t, ".", 5)
	for planted, least := range map[string]int{"Ina\u202e": 60, "1889-11-05T07:00:00Z": 7} {
		places := map[string]bool{}
		for _, kind := range c.Kinds {
			for range 60 {
				plant(c.Body(kind), planted, func(place string, body inventory.Body) {
					if _, isText := inventory.Unseen(planted); !isText && !isWhen(body, planted) {
						return // a text, that may say anything
					}
					places[kind+place] = true
					if inventory.CheckWritten(body) == nil {
						t.Fatalf("%s is not checked at %s: %q", kind, place, planted)
					}
				})
			}
		}
		if len(places) < least {
			t.Errorf("only %d places for %q were found", len(places), planted)
		}
	}
}

// isWhen tells whether a body has a text as a time, not as a text: as a time it is
// written as an instant again, without its zone.
func isWhen(body inventory.Body, planted string) bool {
	other := strings.Replace(planted, "07:00:00Z", "08:00:00+01:00", 1)
	text, _ := json.Marshal(body)
	again := inventory.NewBody(body.Kind())
	_ = json.Unmarshal([]byte(strings.Replace(string(text), planted, other, 1)), again)
	text, _ = json.Marshal(again)
	return strings.Contains(string(text), planted)
}

// plant puts a text in the place of each text of a body, by way of its JSON.
func plant(body inventory.Body, planted string, check func(place string, planted inventory.Body)) {
	text, _ := json.Marshal(body)
	var whole any
	_ = json.Unmarshal(text, &whole)
	eachText(whole, "", func(place string, set func(string)) {
		set(planted)
		changed, _ := json.Marshal(whole)
		other := inventory.NewBody(body.Kind())
		if json.Unmarshal(changed, other) != nil {
			return // a number, or a time that takes no such text
		}
		if again, _ := json.Marshal(other); strings.Contains(string(again), planted) {
			check(place, other)
		}
	})
}

// eachText goes through the texts of what JSON was read into.
func eachText(value any, place string, do func(place string, set func(string))) {
	switch v := value.(type) {
	case map[string]any:
		for name, inner := range v {
			if text, ok := inner.(string); ok {
				do(place+"."+name, func(other string) { v[name] = other })
				v[name] = text
			}
			eachText(inner, place+"."+name, do)
		}
	case []any:
		for i, inner := range v {
			if text, ok := inner.(string); ok {
				do(place+"[]", func(other string) { v[i] = other })
				v[i] = text
			}
			eachText(inner, place+"[]", do)
		}
	}
}

func FuzzVisible(f *testing.F) {
	for _, text := range attacks() {
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text string) {
		shown := inventory.Visible(text)
		if _, found := inventory.Unseen(shown); found || !utf8.ValidString(shown) {
			t.Errorf("%q is shown as %q", text, shown)
		}
		if inventory.CheckText(text) == nil && shown != text {
			t.Errorf("%q is taken and shown as %q", text, shown)
		}
	})
}
