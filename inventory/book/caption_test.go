package book

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"
	"time"

	"steeltally/inventory"
)

func captionSamples(t testing.TB) [][]byte {
	t.Helper()
	var samples [][]byte
	for _, who := range []string{"", "Ylva", `,"more":7`, `a","kind":"b`, `\`, "\u2028<&>", strings.Repeat("å", 40)} {
		for more := range 3 {
			e := inventory.Event{
				Key:     inventory.Key{Writer: "0123456789abcdef", Sequence: uint64(1 + more*1e9)},
				Logical: uint64(7 + more), Noted: time.Unix(1e9, 0), Who: who, More: more, Ticket: who,
				Body: &inventory.Foreign{Name: "polish", Raw: json.RawMessage(`{"more":5,"kind":"x","note":",\"more\":3"}`)},
			}
			line, err := encodeLine(&e)
			if err != nil {
				t.Fatal(err)
			}
			samples = append(samples, line)
		}
	}
	return samples
}

func TestQuickCaptionIsTaken(t *testing.T) {
	for _, line := range captionSamples(t) {
		if _, ok := quickCaption(line); !ok {
			t.Errorf("read the slow way: %s", line)
		}
	}
}

// Whatever is read the quick way is read the same by the general one.
func FuzzCaption(f *testing.F) {
	for _, line := range captionSamples(f) {
		f.Add(string(line))
	}
	f.Add(`{"writer":"0123456789abcdef","seq":1,"logical":1,"seq":2,"happened":"unknown","kind":"x"}`)
	f.Add(`{"writer":"0123456789abcdef","seq":1,"logical":1,"happened":"unknown","kind":"x","more":1}`)
	f.Add(`{"writer":"0123456789abcdef","seq":1,"logical":1,"happened":"unknown","later":{"":"","more":1,"kind":""}}`)
	for _, member := range []string{"writer", "Writer", "seq", "SEQ", "logical", "Logical", "more", `m\u006fre`, "kind", "body"} {
		f.Add(fmt.Sprintf(`{"writer":"0123456789abcdef","seq":1,"logical":1,"happened":"unknown","noted":"x","kind":"x","body":{},%q:"%d","crc32c":"00000000"}`, member, 7))
		f.Add(fmt.Sprintf(`{"writer":"0123456789abcdef","seq":1,"logical":1,"happened":"unknown","noted":"x","kind":"x","body":{}},"%s":7,"crc32c":"00000000"}`, member))
	}
	f.Fuzz(func(t *testing.T, text string) {
		quick, ok := quickCaption([]byte(text))
		if !ok {
			return
		}
		var slow caption
		if err := json.Unmarshal([]byte(text), &slow); err != nil {
			return // no event either way: the whole line is decoded before it is used
		}
		if quick != slow {
			t.Errorf("%s: quick %+v, slow %+v", text, quick, slow)
		}
	})
}
