package cli

import (
	"strings"
	"testing"
)

// Where a hand can be hurt, the verb's own page says so and defers to the maker.
func TestCautionsWhereAHandCanBeHurt(t *testing.T) {
	p := skater(t)
	for _, verb := range []string{"rivet on", "rivet off", "in", "out", "change", "emergency"} {
		said := p.run(append([]string{"help"}, strings.Fields(verb)...)...)
		mustSay(t, said, "eye protection", "instructions come first")
	}
}
