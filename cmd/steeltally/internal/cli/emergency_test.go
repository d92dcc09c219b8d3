package cli

import (
	"strings"
	"testing"
	"time"

	"steeltally/inventory"
)

// skater adds holders, a spare pair and a ready set to what the person's player has.
func skater(t *testing.T) *person {
	p := newPerson(t)
	for _, line := range []string{
		"model add H --piece holder --family Skua", "model add R --piece runner --family Skua",
		"stockin holder --model H --size 280 --side left --count 1", "stockin holder --model H --size 280 --side right --count 2 --place trunk4",
		"out Y1-1-67 --reason rotate", "rivet on H1-1-43 --pair P1-1-09", "rivet on H1-2-40 --pair P1-1-09", "in Y1-1-67 A",
		"stockin runner --model R --size 280 --height 11.9 --count 2", "set add Y1-1-67 --left R1-3-71 --right R1-4-68",
	} {
		p.run(strings.Fields(line)...)
	}
	return p
}

// A scanned holder and one key: what helps is told; then how it ended is asked.
func TestScanOfABrokenHolder(t *testing.T) {
	p := skater(t)
	p.script = "H1-2-40\ne\ned\nholder\nh\ncrack\nrear\n1\nq\n"
	said := p.run("scan")
	mustSay(t, said, "right side: DO NOT SKATE on H1-2-40", "7:30  holder H, with the steel that was in the old one: trunk4", "H1-3-37",
		"what was done?", "H1-2-40 crack, rear-tower, shifts missed: 1", "DO NOT SKATE", "back on the ice: holder")
	mustSay(t, said, "holder H1-2-40 off the right boot", "holder H1-3-37 on the right boot", "right runner of set A on Lindqvarn's pair P1-1-09")
	if open := p.run("work"); strings.Contains(open, "unsafe") || strings.Contains(open, "no holder") || strings.Contains(open, "EMERGENCY") {
		t.Errorf("something is left open: %s", open)
	}
	mustSay(t, p.run("undo", "Y1-1-67"), "holder H1-3-37 on the right boot", "correction, 6 taken back")
	mustSay(t, p.run("history", "P1-1-09"), "DO NOT SKATE: H1-2-40, suspect")
	p.refused("", "rivet", "on", "H1-3-37", "--pair", "P1-1-09")
}

// A key's number is that of the way that was shown; of pieces that are alike it asks which,
// and a scan says it.
func TestTheKeysAreThoseOfTheWays(t *testing.T) {
	for answer, want := range map[string]string{"H1-4-34": "H1-4-34", "2100000434": "H1-4-34", "1": "H1-3-37", "2": "H1-4-34"} {
		p := skater(t)
		p.run("stockin", "holder", "--model", "H", "--size", "280", "--side", "right", "--place", "trunk4")
		p.script = "H1-2-40\ne\ned\n1\n" + answer + "\nh\ncrack\nrear\n1\nq\n"
		said := p.run("scan")
		mustSay(t, said, "1  7:30  holder H, with the steel", "or H1-4-34, the same", "1  holder H, with the steel that was in the old one, H1-3-37 or the like", "which one?",
			"holder "+want+" on the right boot", "back on the ice: holder "+want)
	}
	p := skater(t)
	p.script = "H1-2-40\ne\ned\nholder\nh\ncrack\nrear\n1\nq\n" // by its word, too
	mustSay(t, p.run("scan"), "holder H1-3-37 on the right boot")
}

// The action cards do the same for a player who was scanned.
func TestCardsForWhatBroke(t *testing.T) {
	p := skater(t)
	card := map[string]string{}
	for _, action := range inventory.Actions() {
		card[action.Word] = action.Number.String()
	}
	p.script = "P1-1-09\n" + card["BROKE RIGHT"] + "\nq\n"
	mustSay(t, p.run("scan"), "DO NOT SKATE on H1-2-40 R1-2-74", "only if the holder is sound: look first")
	p.script = card["BROKE LEFT"] + "\nP1-1-09\ne\nq\n"
	mustSay(t, p.run("scan"), "nothing to act on", "on which side did it break?")
}

// The clock runs until Enter; then it asks, and the time is taken.
func TestTheClockRuns(t *testing.T) {
	p := skater(t)
	p.script, p.step = "\nsteel\nn\n0\ny\nH1-1-43\n1100000177\n", 30*time.Second
	said := p.run("emergency", "Y1-1-67", "--side", "left")
	mustSay(t, said, "Enter when he is back", "looked at, sound; after the emergency", "back on the ice: steel", " min, shifts missed: 0")
	p.script = "\n\n"
	mustSay(t, p.run("emergency", "Y1-1-67", "--side", "left"), "left open")
	mustSay(t, p.run("work"), "left side: nobody said how he got back")
	p.script = "8\n\n\n"
	mustSay(t, p.run("emergency", "done"), "did not come back", "nobody has said what broke")
	p.script = "\n"
	p.run("emergency", "Y1-1-67", "--side", "right")
	p.script = "steel\n\n\n"
	mustSay(t, p.run("emergency", "done", "--with", "B"), "what was done?", "back on the ice: steel S1-2-69")
}

// One slip of a key lifts DO NOT SKATE from nothing: somebody looked, and each piece is
// named once more. He is back on the ice all the same.
func TestASlipLiftsNothing(t *testing.T) {
	for _, answers := range []string{"\n", "n\n", "y\n\n", "y\nH1-2-40\ny\n", "y\nH1-2-40\n2100000240\n", "y\nR1-1-77\n"} {
		p := skater(t)
		p.script = "\nmended\nnothing\n\n" + answers
		said := p.run("emergency", "Y1-1-67", "--side", "right")
		mustSay(t, said, "DO NOT SKATE on H1-2-40 and R1-2-74: did somebody look", "back on the ice: mended")
		mustSay(t, p.run("work"), "H1-2-40 suspect", "R1-2-74 suspect")
		p.refused("y\n\n", "inspect", "R1-2-74")
		p.script = "R1-2-74\ni\n" + answers + "q\n"
		mustSay(t, p.run("scan"), "DO NOT SKATE on R1-2-74: did somebody look")
		mustSay(t, p.run("work"), "R1-2-74 suspect")
		p.script = "R1-2-74\ni\ny\nR1-2-74\nq\n"
		mustSay(t, p.run("scan", "--by", "Jan"), "to lift DO NOT SKATE scan R1-2-74, or type its number", "looked at, sound")
		mustSay(t, p.run("history", "Y1-1-67"), "DO NOT SKATE: H1-2-40, suspect", "was DO NOT SKATE: R1-2-74, found sound 26 Nov 2025 07:00 by Jan")
		p.script = "R1-2-74\nq\n"
		mustSay(t, p.run("scan"), "was DO NOT SKATE: R1-2-74")
		p.now = p.now.AddDate(0, 0, 8)
		if said := p.run("history", "R1-2-74"); strings.Contains(said, "was DO NOT SKATE") {
			t.Errorf("a week later it says %s", said)
		}
	}
}

// Two players wear the sweater: the program asks which.
func TestEmergencyOfASharedSweater(t *testing.T) {
	p := skater(t)
	p.script = "1\n"
	mustSay(t, p.run("emergency", "17", "--side", "left"), "1  Lindqvarn", "2  Brimhalt", "17 Lindqvarn, left side")
}
