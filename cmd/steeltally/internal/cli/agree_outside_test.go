//go:build outside

package cli

import (
	"flag"
	"testing"
)

var full = flag.Bool("full", false, "ask all outputs at 20,000 instants whether they agree")

// The same, in the full run.
func TestTwoOutputsNeverDisagreeForLong(t *testing.T) {
	if *full {
		agree(t, 20_000)
		return
	}
	agree(t, 1000)
}
