package cli

import (
	"strings"
	"testing"
	"time"
)

// A person is asked which pair was ground where the set is on another one; no answer
// records nothing.
func TestWhichPairWasGround(t *testing.T) {
	p := skater(t)
	for _, line := range []string{"pair add Y1-1-67 --role spare", "in Y1-1-67 B --pair spare", "grind Y1-1-67"} {
		p.run(strings.Fields(line)...)
	}
	undo := []string{"undo", "Y1-1-67", "--last", "1", "--was-set", "B"}
	mustSay(t, p.refused("\n", undo...), "1  the spare pair was ground, with set B on it", "2  set B had come off the spare pair")
	p.script = "2\n"
	mustSay(t, p.run(undo...), "which is it?", "set B off Lindqvarn's pair P1-2-06", "set B on Lindqvarn's pair P1-1-09", "grind on set B")
}

// The end of a session is about the steel that is skated on, since the last game or
// practice: what was never ground is named as that, and a grind of other steel is none.
func TestTheEndIsAboutThisSession(t *testing.T) {
	p := skater(t)
	end := func(want string) {
		t.Helper()
		p.script = "q\n"
		mustSay(t, p.run("scan"), want)
	}
	end("not logged this session: 17 (never ground)")
	mustSay(t, p.run("due"), "; never ground")
	mustSay(t, p.run("due", "--json"), `"never_ground":true`)
	mustSay(t, p.run("work"), "set A on the first pair was never ground", "steeltally grind Y1-1-67")
	p.run("grind", "Y1-1-67", "--work", "hone", "--unknown")
	end("not logged this session: 17 (never ground)")
	p.run("grind", "Y1-1-67")
	for _, verb := range []string{"due", "work"} {
		if said := p.run(verb); strings.Contains(said, "never ground") {
			t.Errorf("after a grind %s says %q", verb, said)
		}
	}
	end("everybody with steel on was logged this session")
	p.run("pair", "add", "Y1-1-67", "--role", "spare")
	p.run("in", "Y1-1-67", "B", "--pair", "spare")
	mustSay(t, p.run("work"), "set B on the spare pair was never ground", "steeltally grind P1-2-06")
	p.now = p.now.Add(time.Hour)
	p.run("game", "add", p.now.Format(time.RFC3339), "--practice")
	p.now = p.now.Add(time.Hour)
	end("not logged this session: 17")
	p.run("grind", "S1-2-69")
	end("not logged this session: 17 (other steel only)")
	p.run("grind", "Y1-1-67")
	end("everybody with steel on was logged this session")
	evening := time.Date(p.now.Year(), p.now.Month(), p.now.Day(), 20, 0, 0, 0, time.UTC)
	p.run("game", "add", evening.Format(time.RFC3339), "--practice")
	p.now = evening.Add(time.Hour)
	p.run("grind", "Y1-1-67")
	p.now = evening.Add(6 * time.Hour) // beyond midnight it is still about that evening
	end("everybody with steel on was logged this session")
	p.now = evening.Add(10 * time.Hour) // in the morning it is not
	end("not logged this session: 17")
}
