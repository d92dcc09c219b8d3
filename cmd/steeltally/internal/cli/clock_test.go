package cli

import (
	"strings"
	"testing"
	"time"
)

// farOff is a person whose machine lost its time.
func farOff(t *testing.T) *person {
	p := newPerson(t)
	p.now = p.now.Add(5 * 365 * 24 * time.Hour)
	return p
}

const whatIsAsked = "this machine says Mon 25 Nov 2030 07:00; the last entry was noted on Wed 26 Nov 2025 07:00. Is that right? (y/n)"

// TestATerminalAsksAboutTheClockFirst: whatever is no yes records nothing, in every way in.
func TestATerminalAsksAboutTheClockFirst(t *testing.T) {
	for _, answer := range []string{"n\n", "", "\n", "4100000172\n"} {
		p := farOff(t)
		before := p.run("history", "R1-1-77")
		for _, line := range [][]string{{"grind", "R1-1-77"}, {"measure", "R1-1-77", "11.1"}, {"stockin", "runner", "--model", "R", "--size", "280"}, {"scan", "--grind"}} {
			if said := p.refused(answer+"4100000172\n", line...); !strings.Contains(said, whatIsAsked) || !strings.Contains(said, "nothing was recorded") {
				t.Errorf("%q, %v: %s", answer, line, said)
			}
		}
		if after := p.run("history", "R1-1-77"); after != before {
			t.Errorf("%q recorded:\n%s", answer, after)
		}
		mustSay(t, p.run("clock"), "no clock is in doubt")
	}
}

// TestAClockThatIsRightIsAskedAboutOnce: what a person said of it holds for the session, and
// nothing is flagged.
func TestAClockThatIsRightIsAskedAboutOnce(t *testing.T) {
	p := farOff(t)
	p.script = "y\n4100000172\nb6\nl2\nq\n"
	said := p.run("scan")
	if strings.Count(said, "this machine says") != 1 || strings.Count(said, "grind on set A") != 2 {
		t.Errorf("%s", said)
	}
	if said := p.run("grind", "4100000172", "--passes", "7"); strings.Contains(said, "this machine says") {
		t.Errorf("asked once more: %s", said)
	}
	mustSay(t, p.run("clock"), "no clock is in doubt")
	// A program that asks nothing has it recorded and flagged.
	p.now = p.now.Add(48 * time.Hour)
	mustSay(t, p.run("grind", "4100000172", "--passes", "8", "--json"), `"clock_in_doubt"`)
	mustSay(t, p.run("clock"), "in doubt: entry")
}
