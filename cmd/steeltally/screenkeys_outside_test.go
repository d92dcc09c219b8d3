//go:build outside

package main

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"
)

// stroke is a key as a browser tells it.
type stroke struct {
	Key  string  `json:"key"`
	Code string  `json:"code,omitempty"`
	Time float64 `json:"timeStamp,omitempty"`

	Shift  bool `json:"shiftKey,omitempty"`
	Repeat bool `json:"repeat,omitempty"`
}

// digitKeys are what a layout types on the keys of the digits 0 to 9.
const (
	usual  = "0123456789"
	french = `à&é"'(-è_ç`
	czech  = `é+ěščřžýáí`
)

// onLayout are the keys of a text that a scanner types on a machine of a layout, with what
// ends it.
func onLayout(layout, text string, ends ...string) []stroke {
	var keys []stroke
	row := []rune(layout)
	for _, r := range text {
		switch {
		case r >= '0' && r <= '9':
			keys = append(keys, stroke{Key: string(row[r-'0']), Code: "Digit" + string(r)})
		case r == ']':
			keys = append(keys, stroke{Key: map[string]string{french: "$", czech: ")"}[layout], Code: "BracketRight"})
		case r == '.':
			keys = append(keys, stroke{Key: map[string]string{french: ":", czech: "."}[layout], Code: "Period"})
		default:
			keys = append(keys, stroke{Key: string(r), Code: "Key" + strings.ToUpper(string(r))})
		}
		if last := &keys[len(keys)-1]; last.Key == "" {
			last.Key = string(r)
		}
	}
	for _, end := range ends {
		keys = append(keys, stroke{Key: end, Code: end})
	}
	return keys
}

// burst sends keys to the page at a device's speed.
func (s *screen) burst(keys []stroke) {
	s.t.Helper()
	list, err := json.Marshal(keys)
	if err != nil {
		s.t.Fatal(err)
	}
	run[bool](s, `{ document.getElementById("told").replaceChildren(); const now = performance.now(); `+string(list)+`.forEach((k, i) => {
		const key = new KeyboardEvent("keydown", { ...k, bubbles: true, cancelable: true });
		Object.defineProperty(key, "timeStamp", { value: now + 5 * i }); // of a device, however busy the machine is
		document.body.dispatchEvent(key);
	}); } true`)
}

// TestScannersOnTheScreen sends what scanners send to the page: two ends of a line are one,
// a Tab is one, and digits of another layout are read by their keys.
func TestScannersOnTheScreen(t *testing.T) {
	s, book := openDemo(t)
	entries := func() int {
		journal, err := os.ReadFile(filepath.Join(book, "journal.jsonl"))
		if err != nil {
			t.Fatal(err)
		}
		return bytes.Count(journal, []byte("\n"))
	}
	before := entries()
	players := skating(t, book)
	for i, c := range []struct {
		layout, before string
		ends           []string
	}{
		{usual, "", []string{"Enter", "Enter"}}, {usual, "", []string{"Enter", "Enter", "Enter"}}, {usual, "", []string{"Tab"}}, {usual, "", []string{"Tab", "Enter"}}, {usual, "]C1", []string{"Enter"}},
		{french, "", []string{"Enter", "Enter"}}, {french, "]d2", []string{"Tab"}}, {czech, "", []string{"Enter"}}, {czech, "]Q3", []string{"Enter", "Enter"}},
	} {
		s.burst(onLayout(c.layout, c.before+players[i].number, c.ends...))
		s.wait(`document.querySelector("#main section") !== null && document.querySelector("#told .told") !== null`)
		s.scan("?") // all before it was acted on
		if now := run[string](s, `JSON.parse(localStorage.getItem(Object.keys(localStorage).find((k) => k.startsWith("station.")))).talk.about.number`); now != players[i].number {
			t.Errorf("%+v: %s is shown, want %s", c, now, players[i].number)
		}
	}
	if got := entries() - before; got != 0 {
		t.Errorf("%d entries, want none", got)
	}
	time.Sleep(time.Second)
	if told := s.press(""); !strings.Contains(told, "RECORDED") || entries()-before != 1 {
		t.Errorf("%d entries: %s", entries()-before, told)
	}
	before = entries()
	s.testScanner(t)
	if got := entries() - before; got != 0 {
		t.Errorf("the test recorded %d entries", got)
	}
}

// testScanner scans the three codes as a scanner does that is set for another layout.
func (s *screen) testScanner(t *testing.T) {
	run[bool](s, `document.querySelector("footer [data-screen=scanner]").click(), true`)
	s.wait(`document.querySelectorAll(".scanner svg").length === 3`)
	s.pictures("scanner")
	s.burst(onLayout(french, "]d10123456789", "Enter", "Enter"))
	s.wait(`document.querySelector(".scanner li strong") !== null`)
	s.burst(onLayout(usual, "abcdefghijklmnopqrstuvwxyz.1357924680", "Tab"))
	s.burst(onLayout(usual, "9876543210", "Enter"))
	s.wait(`document.querySelector(".scanner").innerText.split("✓").length === 4`)
	said := s.text(".scanner")
	for _, want := range []string{"has to be set", "read by their place", "Enter and Enter: taken for one", "ends a code with Tab", "small letters"} {
		if !strings.Contains(said, want) {
			t.Errorf("%q is missing: %s", want, said)
		}
	}
	if strings.Contains(said, "before a code") {
		t.Errorf("Enter of the scan before is taken for a prefix: %s", said)
	}
	s.pictures("scanner-heard")
	s.key("F1")
	s.wait(`document.querySelector(".scanner") === null`)
}

// TestKeysWithoutAPage drives the keys by plain events, with times of their own.
func TestKeysWithoutAPage(t *testing.T) {
	s, _ := openDemo(t)
	at := func(time float64, every float64, keys []stroke) []stroke {
		for i := range keys {
			keys[i].Time = time + every*float64(i)
		}
		return keys
	}
	enter, number := "Enter", "4100000172"
	for name, c := range map[string]struct {
		keys []stroke
		want []string
	}{
		"two Enters of a device":        {at(0, 20, onLayout(usual, number, enter, enter)), []string{number}},
		"Enter of a person":             {append(at(0, 20, onLayout(usual, number, enter)), stroke{Key: enter, Time: 20*10 + 51}), []string{number, ""}},
		"Enter a moment later":          {append(at(0, 20, onLayout(usual, number, enter)), stroke{Key: enter, Time: 20*10 + 50}), []string{number}},
		"a slow device":                 {append(at(0, 45, onLayout(usual, number, enter)), stroke{Key: enter, Time: 45*10 + 90}), []string{number}},
		"a person after a slow device":  {append(at(0, 45, onLayout(usual, number, enter)), stroke{Key: enter, Time: 45*10 + 91}), []string{number, ""}},
		"a person who types slowly":     {append(at(0, 400, onLayout(usual, number, enter)), stroke{Key: enter, Time: 400*10 + 101}), []string{number, ""}},
		"Enter held down":               {[]stroke{{Key: enter, Time: 500}, {Key: enter, Time: 1000, Repeat: true}, {Key: enter, Time: 1033, Repeat: true}}, []string{""}},
		"a Tab of a device":             {at(0, 20, onLayout(usual, number, "Tab", enter)), []string{number}},
		"a Tab of a person":             {append(at(0, 20, onLayout(usual, number)), stroke{Key: "Tab", Time: 1000}, stroke{Key: enter, Time: 2000}), []string{number}},
		"French digits":                 {at(0, 20, onLayout(french, number, enter)), []string{number}},
		"French digits, slowly":         {at(0, 400, onLayout(french, number, enter)), []string{number}},
		"French tally":                  {at(0, 20, onLayout(french, "t1.1000042744.1", enter)), []string{"T1.1000042744.1"}},
		"French identifier":             {at(0, 20, onLayout(french, "]C1"+number, enter)), []string{"]C1" + number}},
		"a scanner set to French":       {at(0, 20, append(shifted("!@#$%^&*()"), stroke{Key: enter})), []string{"1234567890"}},
		"what was half typed":           {append(at(0, 150, onLayout(usual, "l2")), at(1000, 20, onLayout(french, number, enter))...), []string{number}},
		"a person's French characters":  {at(0, 150, onLayout(french, "17", enter)), []string{"&è"}},
		"a name":                        {at(0, 150, onLayout(usual, "lindqvarn", enter)), []string{"lindqvarn"}},
		"a dead key":                    {at(0, 20, append([]stroke{{Key: "Dead", Code: "BracketRight"}}, onLayout(usual, "d2"+number, enter)...)), []string{"]D2" + number}},
		"a caliper on a French machine": {at(0, 20, onLayout(french, "11.10", enter)), []string{"11.10"}},
	} {
		list, err := json.Marshal(c.keys)
		if err != nil {
			t.Fatal(err)
		}
		got := run[[]string](s, `import("/assets/keys.js").then(({ Keys }) => {
			const lines = [], keys = new Keys({ value: "" }, (line) => lines.push(line));
			for (const key of `+string(list)+`) keys.key({ timeStamp: 0, getModifierState: () => false, ...key });
			return lines; })`)
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}

// shifted are digit keys with the shift key, and what they type so.
func shifted(typed string) []stroke {
	var keys []stroke
	for i, r := range typed {
		keys = append(keys, stroke{Key: string(r), Code: "Digit" + string(usual[(i+1)%10]), Shift: true})
	}
	return keys
}
