package templates

import (
	"strings"
	"testing"
	"testing/fstest"
)

// good is a template without a mistake; its lines are numbered in the tests below.
const good = `title = "test tag"
size = [40, 20]

[[text]]
content = "{{.Short}}"
box = [1, 1, 20, 4]
height = 3

[[symbol]]
content = "{{.Number}}"
prefer = ["datamatrix"]
box = [28, 1, 10, 10]
`

func TestParseReadsWhatIsWritten(t *testing.T) {
	tag, err := Parse("own", []byte(good))
	if err != nil {
		t.Fatal(err)
	}
	if tag.Name != "own" || tag.Width != 40 || tag.Height != 20 || len(tag.Texts) != 1 || len(tag.Symbols) != 1 {
		t.Fatalf("got %+v", tag)
	}
	text := tag.Texts[0]
	if text.Box != (Box{1, 1, 20, 4}) || text.Height != 3 || text.Least != 3 || text.Fit != Shrink || text.Align != Left || text.Valign != Middle {
		t.Errorf("text %+v", text)
	}
	if written, err := text.Write(Content{Short: "R0-427-44"}); err != nil || written != "R0-427-44" {
		t.Errorf("text writes %q, %v", written, err)
	}
	if symbol := tag.Symbols[0]; symbol.LeastLevel != "M" || symbol.Box != (Box{28, 1, 10, 10}) {
		t.Errorf("symbol %+v", symbol)
	}
}

// Each mistake is told with the line it stands on.
func TestParseTellsTheLine(t *testing.T) {
	cases := []struct{ name, old, new, want string }{
		{"not TOML", `height = 3`, `height = `, "line 7"},
		{"unknown key", `height = 3`, "height = 3\nheigth = 4", "line 8: no such key in a text: heigth; is height meant?"},
		{"far from any key", `height = 3`, "height = 3\nshadow = 4", "line 8: no such key in a text: shadow; there are align, bold, box, content, fit"},
		{"unknown table", `[[symbol]]`, "[[smybol]]\nprefer = 1\n[[symbol]]", "line 9: no such key in a template: smybol; is symbol meant?"},
		{"no title", `title = "test tag"`, `title = ""`, "line 1: a template needs a title"},
		{"no size", `size = [40, 20]`, `size = [40]`, "line 2: give width and height"},
		{"too large", `size = [40, 20]`, `size = [4000, 20]`, "line 2"},
		{"box outside", `box = [1, 1, 20, 4]`, `box = [25, 1, 20, 4]`, "line 6: the box reaches outside"},
		{"box of three", `box = [28, 1, 10, 10]`, `box = [28, 1, 10]`, "line 12: give left, top, width and height"},
		{"no height", `height = 3`, "bold = true", "line 4: a text needs the height"},
		{"letters higher than the box", `height = 3`, "height = 5", "line 7: letters of 5.00 mm do not stand"},
		{"least above the height", `height = 3`, "height = 3\nleast = 4", "line 8: the least height"},
		{"least illegible", `height = 3`, "height = 3\nleast = 0.5", "line 8: the least height"},
		{"unknown field", `{{.Short}}`, `{{.Shrt}}`, "line 5"},
		{"broken field", `{{.Short}}`, `{{.Short`, "line 5"},
		{"endless text", `{{.Short}}`, "{{printf `%20000d` 1}}", "line 5: the text is longer"},
		{"endless work", `{{.Short}}`, `{{range 9223372036854775807}}{{end}}`, "line 5: range goes over .Lines"},
		{"a range in a range", `{{.Short}}`, `{{range .Lines}}{{range .Lines}}{{end}}{{end}}`, "line 5: range goes over .Lines"},
		{"a text that calls itself", `{{.Short}}`, `{{define ` + "`x`}}{{template `x`}}{{end}}{{template `x`}}", "line 5"},
		{"no content", `content = "{{.Short}}"`, `content = ""`, "line 5: nothing to print"},
		{"unknown fit", `height = 3`, "height = 3\nfit = \"squeeze\"", "line 8: \"squeeze\" is not a fit rule"},
		{"unknown side", `height = 3`, "height = 3\nside = \"up\"", "line 8: \"up\" is not a side"},
		{"unknown alignment", `height = 3`, "height = 3\nalign = \"up\"", "line 8: \"up\" is not an alignment"},
		{"unknown upright alignment", `height = 3`, "height = 3\nvalign = \"left\"", "line 8: \"left\" is not an alignment"},
		{"broken condition", `height = 3`, "height = 3\nwhen = \".Unsaf\"", "line 8"},
		{"unknown symbol", `["datamatrix"]`, `["dots"]`, "line 11: \"dots\" is not a symbol"},
		{"no symbol", `prefer = ["datamatrix"]`, ``, "line 9: a symbol needs its kinds"},
		{"unknown level", `prefer = ["datamatrix"]`, "prefer = [\"qr\"]\nlevel = \"Z\"", "line 12: \"Z\" is not an error correction level"},
		{"hole outside", `[[symbol]]`, "[[hole]]\nat = [1, 1]\ndiameter = 4\n\n[[symbol]]", "line 11: a hole of 4.00 mm"},
		{"crooked line", `[[symbol]]`, "[[line]]\nfrom = [1, 1]\nto = [4, 5]\n\n[[symbol]]", "line 11: a line is level or upright"},
		{"no number", `box = [1, 1, 20, 4]`, `box = [nan, 1, 20, 4]`, "line 6"},
		{"endless", `height = 3`, `height = inf`, "line 7"},
		{"point outside", `[[symbol]]`, "[[line]]\nfrom = [1, 1]\nto = [1, 50]\n\n[[symbol]]", "line 11: the point is outside"},
	}
	for _, c := range cases {
		source := strings.Replace(good, c.old, c.new, 1)
		if source == good {
			t.Fatalf("%s: the test changes nothing", c.name)
		}
		_, err := Parse("own", []byte(source))
		if err == nil {
			t.Errorf("%s: no error", c.name)
		} else if !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %q does not say %q", c.name, err, c.want)
		}
	}
}

func TestParseTellsEveryMistake(t *testing.T) {
	source := strings.NewReplacer("height = 3", "height = 30", `["datamatrix"]`, `["dots"]`, `"test tag"`, `""`).Replace(good)
	_, err := Parse("own", []byte(source))
	if err == nil {
		t.Fatal("no error")
	}
	lines := strings.Split(err.Error(), "\n")
	if len(lines) != 3 {
		t.Errorf("%d mistakes told, want 3:\n%s", len(lines), err)
	}
}

func TestConditions(t *testing.T) {
	source := strings.Replace(good, "height = 3", "height = 3\nside = \"left\"\nwhen = \".Unsafe\"", 1)
	tag, err := Parse("own", []byte(source))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		content Content
		want    bool
	}{
		{Content{Side: "left", Unsafe: true}, true},
		{Content{Side: "left"}, false},
		{Content{Side: "right", Unsafe: true}, false},
		{Content{Unsafe: true}, false},
	} {
		if got, err := tag.Texts[0].Holds(c.content); err != nil || got != c.want {
			t.Errorf("%+v: %v, %v; want %v", c.content, got, err, c.want)
		}
	}
	none := Condition{Side: "none"}
	if there, _ := none.Holds(Content{Side: "left"}); there {
		t.Error(`side "none" holds on a left runner's tag`)
	}
	if there, _ := none.Holds(Content{}); !there {
		t.Error(`side "none" does not hold on a tag without a side`)
	}
}

// A turned box is measured from the opposite corner.
func TestTurnedBox(t *testing.T) {
	source := strings.Replace(good, "height = 3", "height = 3\nturned = true", 1)
	tag, err := Parse("own", []byte(source))
	if err != nil {
		t.Fatal(err)
	}
	if got, want := tag.Texts[0].Box, (Box{19, 15, 20, 4}); got != want {
		t.Errorf("box %v, want %v", got, want)
	}
}

func TestOwnTemplatesComeFirst(t *testing.T) {
	own := fstest.MapFS{
		"tags/pair.toml":      {Data: []byte(good)},
		"tags/plain.toml":     {Data: []byte(good)},
		"sheets/my-roll.toml": {Data: []byte("title = \"own roll\"\npage = [60, 30]\n")},
	}
	l := WithOwn(own)
	pair, err := l.Tag("pair")
	if err != nil || pair.Title != "test tag" {
		t.Errorf("pair is %v, %v; want the club's own", pair, err)
	}
	if _, err := l.Tag("tie-on"); err != nil {
		t.Errorf("the embedded tie-on: %v", err)
	}
	if names := strings.Join(l.Tags(), " "); !strings.Contains(names, "plain") || strings.Count(names, "pair") != 1 {
		t.Errorf("names %q", names)
	}
	if sheet, err := l.Sheet("my-roll"); err != nil || sheet.CellWidth != 60 {
		t.Errorf("my-roll is %v, %v", sheet, err)
	}
}

func TestUnknownNamesAreRefused(t *testing.T) {
	for _, name := range []string{"", "nothing", "../tags/pair", "a/b", `a\b`, "."} {
		_, err := Embedded().Tag(name)
		if err == nil || !strings.Contains(err.Error(), "tie-on") {
			t.Errorf("%q: %v; want an error that names what there is", name, err)
		}
	}
}

// No source makes the parser panic or take a template that is not sound.
func FuzzParse(f *testing.F) {
	f.Add([]byte(good))
	for _, name := range Embedded().Tags() {
		source, err := Embedded().TagSource(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(source)
	}
	f.Fuzz(func(t *testing.T, source []byte) {
		tag, err := Parse("fuzz", source)
		if err != nil {
			return
		}
		for _, text := range tag.Texts {
			if text.Box.Right() > tag.Width+tolerance || text.Box.Bottom() > tag.Height+tolerance || text.Height < text.Least {
				t.Errorf("taken: %+v", text)
			}
		}
	})
}

// Files that would take the reader of TOML minutes are refused before it sees them.
func TestFilesThatNoPersonWrites(t *testing.T) {
	for name, source := range map[string]string{
		"dotted":  strings.Repeat("a.", 10_000) + "a = 1",
		"tables":  "a = " + strings.Repeat("{a = ", 20_000),
		"lists":   "a = " + strings.Repeat("[", 200_000),
		"endless": strings.Repeat("# a line\n", 10_000),
	} {
		if _, err := Parse(name, []byte(source)); err == nil || !strings.Contains(err.Error(), "are possible") {
			t.Errorf("%s: a template: %v", name, err)
		}
		if _, err := ParseSheet(name, []byte(source)); err == nil || !strings.Contains(err.Error(), "are possible") {
			t.Errorf("%s: a sheet: %v", name, err)
		}
	}
}
