package templates

import "strings"

// Content is what a tag can show. A template names these fields in its texts, as in
// "{{.Sweater}}". An empty field leaves its place on the tag empty. Each piece of
// writing comes ready to print: units, dates with the month in letters, words.
type Content struct {
	Number string // the piece's number: ten digits, without blanks
	Short  string // the same as people read it: "R0-427-44"
	Kind   string // "runner", "holder", "pair", "set", "trunk", "bin", "player"

	Side    string // "left", "right", or empty while it is not settled
	Sweater string // sweater number, as worn
	Role    string // of a pair: "first", "spare", "third"
	Letter  string // of a set: "A"
	Player  string // a name; never on the tag of a removed runner
	Name    string // of a trunk or bin

	DateOff     string // "28 NOV 2025"
	SetOrder    string // "set 12": which of the season's sets this was
	HeightNew   string // "11.90 mm"
	HeightFinal string // "9.40 mm"
	Hollow      string // "1/2 in"
	Profile     string // "11 ft"
	Size        string // "280"
	Model       string // of the steel or the holder
	Reason      string // why it came off: "low", "broken"
	LastGame    string // "Rime Point 27 NOV"
	Unsafe      bool   // cracked or bent: DO NOT SKATE

	Tally string // self-describing text of a removed runner's QR code

	Lines []string // contents of a trunk or bin, one line each

	Word string // of an action: "GRIND"
	Hint string // of an action: "the usual passes, both sides"
}

// ShortHead is the short number up to its first dash, "R0", for tags so small that
// it takes two lines.
func (c Content) ShortHead() string {
	head, _, _ := strings.Cut(c.Short, "-")
	return head
}

// ShortTail is the rest of the short number, "427-44".
func (c Content) ShortTail() string {
	_, tail, _ := strings.Cut(c.Short, "-")
	return tail
}

// SideWord is LEFT or RIGHT, or empty.
func (c Content) SideWord() string { return strings.ToUpper(c.Side) }

// SideLetter is L or R, or empty.
func (c Content) SideLetter() string {
	if c.Side == "" {
		return ""
	}
	return strings.ToUpper(c.Side[:1])
}

// Sample is the content of an invented tag with every field filled, for previews,
// for trying templates, and for the checks.
func Sample() Content {
	return Content{
		Number: "1000042744", Short: "R0-427-44", Kind: "runner",
		Side: "left", Sweater: "17", Role: "first", Letter: "B",
		Player: "Ansgar Lindqvarn", Name: "Trunk 4",
		DateOff: "28 NOV 2025", SetOrder: "set 12",
		HeightNew: "11.90 mm", HeightFinal: "9.40 mm",
		Hollow: "1/2 in", Profile: "11 ft", Size: "280", Model: "Model R",
		Reason: "low", LastGame: "Rime Point 27 NOV",
		Tally: "T1.1000042744.2.117.17L.260112.260128.1190.940.41.205.32.LOW.37",
		Lines: []string{"8 pairs, spare", "24 runners", "rivets, hammer, wax"},
		Word:  "GRIND", Hint: "the usual passes, both sides",
	}
}
