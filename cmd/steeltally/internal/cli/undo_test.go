package cli

import (
	"strings"
	"testing"
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
