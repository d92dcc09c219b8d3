package cli

import (
	"strings"
	"testing"
)

// A blank tag that is scanned the first time asks what it sticks on; the next one of
// the same sort takes one key.
func TestBlankTagsAreEnteredOnTheirFirstScan(t *testing.T) {
	p := newPerson(t)
	p.run("tag", "--blank", "3", "runner", "--out", p.book+".pdf")
	p.script = "R1-3-71\nSkua R 280\nR1-4-68\n\nR1-5-65\n1100000371\nq\n"
	said := p.run("scan")
	mustSay(t, said, "blank tag R1-3-71: model and length? ", "blank tag R1-4-68: model and length, Enter for Skua R 280? ",
		"R1-5-65 is a blank tag: no piece has it yet", "runner R1-3-71, Skua R 280")
	if got := strings.Count(said, "stock in: Skua R 280"); got != 2 {
		t.Errorf("%d pieces were entered, want 2:\n%s", got, said)
	}
}

// An old piece takes no more keys than copying what is written on it, and one answer.
func TestOldPiecesTakeTenKeys(t *testing.T) {
	p := newPerson(t)
	p.script = "17l1124\ny\n\n"
	mustSay(t, p.run("found", "--out", p.book+".pdf"), "was it Lindqvarn's? (y/n) ", "R1-3-71  17 Lindqvarn, left, Nov 2024", "1 tag in")
	if keys := len(p.script) - len("\n"); keys > 10 {
		t.Errorf("%d keys", keys)
	}
}
