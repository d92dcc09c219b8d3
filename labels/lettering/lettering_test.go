package lettering

import (
	"slices"
	"strings"
	"testing"
)

func TestCleanLosesNothingSilently(t *testing.T) {
	cases := []struct {
		text, want string
		replaced   []rune
	}{
		{"Ansgar Lindqvarn", "Ansgar Lindqvarn", nil},
		{"Æsa Þórgnýr Čišić-Łuć", "Æsa Þórgnýr Čišić-Łuć", nil},
		{"A\u030angstro\u0308m", "Ångström", nil}, // accents as marks of their own
		{"Ida 😀😀 🏒", "Ida □□ □", []rune{'😀', '🏒'}},
		{"سلام", "□□□□", []rune{'س', 'ل', 'ا', 'م'}},
		{"tab\tand\u00a0blank", "tab and blank", nil},
		{"two\nlines", "two\nlines", nil},
		{"a\u200db\u202ec\x07", "abc", nil}, // joiner, direction mark, bell
		{"bad \xff byte", "bad □ byte", []rune{'\uFFFD'}},
	}
	for _, style := range []Style{Regular, Bold} {
		for _, c := range cases {
			clean, replaced := Of(style).Clean(c.text)
			if clean != c.want || !slices.Equal(replaced, c.replaced) {
				t.Errorf("%q: %q, %q; want %q, %q", c.text, clean, replaced, c.want, c.replaced)
			}
		}
	}
}

// The faces' own figures, as the font files have them (tables head, OS/2 and hmtx):
// 2048 units an em, capitals 1480 high, a digit 1139 wide.
func TestFacesAreMeasuredAsTheFontsSay(t *testing.T) {
	for _, style := range []Style{Regular, Bold} {
		face := Of(style)
		if face.CapHeight != 1480*Em/2048 {
			t.Errorf("capitals %d", face.CapHeight)
		}
		for digit := '0'; digit <= '9'; digit++ {
			if g, ok := face.Glyph(digit); !ok || g.Advance != 1139*Em/2048 {
				t.Errorf("digit %c: %+v", digit, g)
			}
		}
		if _, ok := face.Glyph(Placeholder); !ok {
			t.Error("the face lacks the placeholder")
		}
		if !strings.Contains(Ellipsis, "…") || face.Measure(Ellipsis).Width() <= 0 {
			t.Error("the face lacks the ellipsis")
		}
	}
}

func TestMeasureBoundsTheInk(t *testing.T) {
	face := Of(Regular)
	for _, text := range []string{"", " ", "   "} {
		if e := face.Measure(text); e.Width() != 0 || e.Above != 0 || e.Below != 0 {
			t.Errorf("%q: %+v, want no ink", text, e)
		}
	}
	if e := face.Measure("Hg"); e.Above < face.CapHeight || e.Below < 100 {
		t.Errorf("Hg: %+v", e)
	}
	spaced, plain := face.Measure(" H"), face.Measure("H")
	if spaced.Width() != plain.Width() || spaced.Left <= plain.Left {
		t.Errorf("a blank before a letter: %+v, without it %+v", spaced, plain)
	}
}

func TestBreakKeepsEveryWord(t *testing.T) {
	face := Of(Regular)
	const text = "spare pairs of Ansgar Lindqvarn-Skarn, 24 runners R0-427-44\nand wax"
	for width := 500; width < 40000; width += 500 {
		lines := face.Break(text, width)
		joined := strings.ReplaceAll(strings.Join(lines, ""), " ", "")
		if want := strings.NewReplacer(" ", "", "\n", "").Replace(text); joined != want {
			t.Fatalf("at %d: %q", width, lines)
		}
		for _, line := range lines {
			if face.Measure(line).Width() > width && strings.ContainsAny(strings.TrimSuffix(line, "-"), " -") {
				t.Errorf("at %d: %q is %d wide and could be broken", width, line, face.Measure(line).Width())
			}
		}
	}
	if lines := face.Break("R0-427-44", 2500); !slices.Equal(lines, []string{"R0-", "427-", "44"}) {
		t.Errorf("a short number in three lines: %q", lines)
	}
}

func TestShortenMarksTheCut(t *testing.T) {
	face := Of(Regular)
	if got := face.Shorten("Rime Point", 100000); got != "Rime Point" {
		t.Errorf("%q was shortened to %q", "Rime Point", got)
	}
	got := face.Shorten("Rime Point Breakwater", 5000)
	if !strings.HasSuffix(got, Ellipsis) || face.Measure(got).Width() > 5000 || !strings.HasPrefix(got, "Rime") {
		t.Errorf("shortened to %q", got)
	}
}
