package picture

import (
	"strings"
	"sync/atomic"
	"testing"
)

// A fault in one strip is caught by who asked for them; the others are done.
func TestAFaultInOneStripIsCaught(t *testing.T) {
	var done atomic.Int32
	defer func() {
		fault, ok := recover().(*Fault)
		if !ok || !strings.Contains(fault.String(), "index out of range") || !strings.Contains(fault.Trail(), "TestAFaultInOneStripIsCaught") {
			t.Errorf("caught %v", fault)
		}
		if done.Load() != 3 {
			t.Errorf("%d strips were done, want the other 3", done.Load())
		}
	}()
	Strips(8, 4, func(from, _ int) {
		var none []int
		if from == 2 {
			none[from]++
		}
		done.Add(1)
	})
	t.Error("the fault was lost")
}
