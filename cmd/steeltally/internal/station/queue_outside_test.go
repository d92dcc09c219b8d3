//go:build outside

package station

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
)

// TestQueueLosesNoLine drives the page's queue without a page: nothing that was typed gets
// lost, changes, or comes in another order.
func TestQueueLosesNoLine(t *testing.T) {
	queue := filepath.Join(t.TempDir(), "queue.mjs")
	text, err := files.ReadFile("assets/queue.js")
	must(t, err)
	must(t, os.WriteFile(queue, text, 0o600))
	seeds, steps := 10, "400"
	if *full {
		seeds, steps = 50, "2000"
	}
	lines := 0
	for seed := range seeds {
		said, err := exec.Command("node", "testdata/queue_check.mjs", queue, numeral(seed), steps).CombinedOutput()
		var came struct {
			Lines, Windows, Waits int
			Faults                []string
		}
		if err != nil || json.Unmarshal(said, &came) != nil {
			t.Fatalf("seed %d: %v: %s", seed, err, said)
		}
		for _, fault := range came.Faults {
			t.Errorf("seed %d: %s", seed, fault)
		}
		if came.Windows < 10 || came.Waits < 10 {
			t.Errorf("seed %d: only %d windows, %d lines that waited", seed, came.Windows, came.Waits)
		}
		lines += came.Lines
	}
	t.Logf("%d lines", lines)
}
