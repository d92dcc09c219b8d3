package station

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/inventory/deeds"
)

// keepFiles reads both files of the book, and gives what puts them back.
func (s *stand) keepFiles() (putBack func()) {
	kept := map[string][]byte{}
	for _, name := range []string{"journal.jsonl", "book.db"} {
		path := filepath.Join(s.options.Book, name)
		text, err := os.ReadFile(path)
		must(s.t, err)
		kept[path] = text
	}
	return func() {
		for path, text := range kept {
			must(s.t, os.WriteFile(path, text, 0o600))
		}
	}
}

// A crack that only another copy of the book knew, and that was set aside, is on every
// screen of the player, of the piece and of what is due, and on nobody else's.
func TestAnUnsafePieceSetAsideIsOnItsScreens(t *testing.T) {
	s := newStand(t)
	d, err := desk.Open(s.options)
	must(t, err)
	_, err = d.Grind([]string{"17"}, nil, "", deeds.Grind{})
	must(t, err)
	must(t, d.Close())
	putBack := s.keepFiles()
	d, err = desk.Open(s.options)
	must(t, err)
	_, err = d.Damage("1100000177", deeds.ReportDamage{Mode: "crack"}, nil)
	must(t, err)
	must(t, d.Close())
	other := filepath.Join(t.TempDir(), "other")
	must(t, os.CopyFS(other, os.DirFS(s.options.Book)))
	putBack()
	d, err = desk.Open(s.options)
	must(t, err)
	_, err = d.Grind([]string{"17"}, nil, "", deeds.Grind{})
	must(t, err)
	merged, err := d.Merge(other, false)
	must(t, err)
	must(t, d.Close())
	if merged.SetAside == 0 {
		t.Fatalf("nothing was set aside: %+v", merged)
	}

	due, _ := s.send("/slow", []byte(`{"talk":{"screen":"`+atDue+`"}}`))
	const said = "what is set aside says DO NOT SKATE (R1-1-77 crack)"
	shown := func(line string) string {
		talk := s.say("", line, talk{}).Talk
		return s.part(talk).Main
	}
	for what, html := range map[string]string{
		"the player":  shown("17"),
		"the piece":   shown("1100000177"),
		"its history": s.part(talk{Screen: atPiece, Piece: "1100000177"}).Main,
		"his history": s.part(talk{Screen: atPiece, Piece: "17"}).Main,
		"what is due": string(due),
	} {
		if !strings.Contains(html, said) {
			t.Errorf("%s does not say it: %s", what, html)
		}
	}
	for what, html := range map[string]string{
		"another player": shown("23"), "another piece": shown("1100000274"), "his history": s.part(talk{Screen: atPiece, Piece: "23"}).Main,
	} {
		if html == "" || strings.Contains(html, "set aside") {
			t.Errorf("%s: %s", what, html)
		}
	}

	s.now = s.now.Add(time.Hour)
	talking := talk{}
	for _, c := range []struct {
		line  string
		warns bool
	}{{"17", false}, {"b6", true}, {"el", true}, {"ed", false}, {"nothing", false}, {"23", false}, {"b6", false}} {
		told := s.say("", c.line, talking)
		if talking = told.Talk; strings.Contains(told.Told, said) != c.warns {
			t.Errorf("%s: %s", c.line, told.Told)
		}
	}
}
