package jig

import (
	"testing"

	"steeltally/inventory"
)

func TestChangeKey(t *testing.T) {
	for text, want := range map[string]struct {
		letter string
		reason inventory.Reason
	}{
		"c": {"", ""}, "c B": {"B", ""}, "c b": {"B", ""}, "c AB rotate": {"AB", "rotate"}, "c rotate": {"", "rotate"},
		"c 9.4 9.6": {"", ""}, "c D low 9.4 9.6": {"D", "low"},
	} {
		c, ok, err := changeKey(text)
		if !ok || err != nil || c.letter != want.letter || c.off.Reason != want.reason {
			t.Errorf("%q: %+v, %v", text, c, ok)
		}
	}
	for _, text := range []string{"", "change", "carl", "c nine four", "cB", "4100000172"} {
		if c, ok, err := changeKey(text); ok || err != nil {
			t.Errorf("%q: %+v, %v", text, c, err)
		}
	}
	for _, text := range []string{"c 9.4", "c B B", "c B 9.4 9.6 9.8", "c H low 9.4", "c C sideways"} {
		if c, ok, err := changeKey(text); !ok || err == nil {
			t.Errorf("%q: %+v", text, c)
		}
	}
	for _, reason := range inventory.Reasons() {
		if isLetter(string(reason)) {
			t.Errorf("reason %s reads as the letter of a set", reason)
		}
	}
}
