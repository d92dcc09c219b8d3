//go:build outside

package cli

import "testing"

// The same, in the full run.
func TestTwoOutputsNeverDisagreeForLong(t *testing.T) {
	if *full {
		agree(t, 20_000)
		return
	}
	agree(t, 1000)
}
