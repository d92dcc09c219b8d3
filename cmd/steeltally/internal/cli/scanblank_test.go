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

// Two readings are both shown and asked about, and the answer holds for the rest of the
// bucket. What is no answer is asked again and entered nowhere; an answer to nothing that
// was asked is no inscription.
func TestABucketOfOldPieces(t *testing.T) {
	p := newPerson(t)
	p.script = strings.Join([]string{
		"41 L 11/24", "42 L 12/24", "yes", "", "b", "y", "a", // the answer is b, Nov 2024; then two answers to nothing
		"42 L 12/24", "R 10/24 #43 //", "44 R 3/4/24", "a", "5/6/24 45", "19 Feb 9 R", "u", "46 L R", "No 47 2024-11-24", "17 R", "46 L", "n", "u", "48 R", "q",
	}, "\n") + "\n"
	said := p.run("found")
	mustSay(t, said, "a  sweater 41, left, 24 Nov 2025 (the last one: no year is written)\nb  sweater 41, left, Nov 2024", "such dates are read so from here on",
		"\"42 L 12/24\" is no answer, and was not entered", "\"yes\" is no answer", "\"y\" is an answer, and nothing was asked", "\"a\" is an answer",
		"sweater 41, left, Nov 2024", "sweater 42, left, Dec 2024", "sweater 43, right, Oct 2024, strokes //: 2 pairs before", "sweater 44, right, 3 Apr 2024", "sweater 45, no side, 5 Jun 2024",
		"\"19 Feb 9 R\" was left out", "it says left and right", "sweater 47, no side, 24 Nov 2024", "\"46 L\" is no answer", "\"17 R\" was left out", "sweater 48", "7 old pieces entered")
	if asked := strings.Count(said, "which is it"); asked != 6 { // four times of the first, once each of two others
		t.Errorf("asked %d times which it is:\n%s", asked, said)
	}
	p.script = "17 L 11/24\n"
	mustSay(t, p.run("found"), "\"17 L 11/24\" was left out", "0 old pieces entered")
}
