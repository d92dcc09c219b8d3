package templates

import (
	"strings"
	"testing"
)

// An unknown key is told on each line on which it stands, once.
func TestUnknownKeyIsToldOnEachLine(t *testing.T) {
	source := strings.NewReplacer("height = 3", "height = 3\nHeigth = 4", "[[symbol]]", "[[text]]\nheigth = 5\n\n[[smybol]]\nprefer = 1\n\n[[symbol]]").Replace(good)
	_, err := Parse("own", []byte(source))
	if err == nil {
		t.Fatal("no error")
	}
	var told []string
	for _, line := range strings.Split(err.Error(), "\n") {
		if strings.Contains(line, "no such key") {
			told = append(told, line)
		}
	}
	const want = "own, line 8: no such key in a text: heigth; is height meant?\n" +
		"own, line 11: no such key in a text: heigth; is height meant?\n" +
		"own, line 13: no such key in a template: smybol; is symbol meant?"
	if got := strings.ToLower(strings.Join(told, "\n")); got != want {
		t.Errorf("told:\n%s\nwant:\n%s", got, want)
	}
}

// The first three are the usual examples of the distance, from memory.
func TestEditsBetween(t *testing.T) {
	for _, c := range []struct {
		a, b string
		want int
	}{{"kitten", "sitting", 3}, {"saturday", "sunday", 3}, {"flaw", "lawn", 2}, {"", "box", 3}, {"box", "", 3}, {"box", "box", 0}} {
		if got := editsBetween(c.a, c.b); got != c.want {
			t.Errorf("%q to %q: %d, want %d", c.a, c.b, got, c.want)
		}
	}
}

func TestNearestGuessesNothingFar(t *testing.T) {
	known := []string{"at", "box", "columns", "height"}
	for word, want := range map[string]string{"heigth": "height", "HEIGHT": "height", "bx": "box", "to": "", "colour": "", "shadow": ""} {
		if got := nearest(word, known); got != want {
			t.Errorf("%s: %q, want %q", word, got, want)
		}
	}
}
