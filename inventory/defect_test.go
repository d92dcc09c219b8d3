package inventory

import (
	"errors"
	"strings"
	"testing"
)

func TestGuardKeepsWhatFindsTheFault(t *testing.T) {
	lost := []int{}
	fails := func() error { lost[len(lost)]++; return nil }
	var first, second *Defect
	for _, to := range []**Defect{&first, &second} {
		if err := Guard(fails); !errors.As(err, to) {
			t.Fatalf("a fault came back as %v", err)
		}
	}
	if !strings.Contains(first.Cause, "index out of range") || !strings.Contains(first.Error(), "fault in this program") {
		t.Errorf("cause %q", first.Cause)
	}
	if !strings.Contains(first.Trail, "TestGuardKeepsWhatFindsTheFault") || strings.Contains(first.Trail, "/defect_test.go") {
		t.Errorf("the trail does not lead to the fault, or tells of folders:\n%s", first.Trail)
	}
	if first.Trail != second.Trail {
		t.Error("one fault leaves two trails")
	}
}

func TestGuardLeavesErrorsAlone(t *testing.T) {
	refused := Refuse("no", "")
	if err := Guard(func() error { return refused }); err != refused {
		t.Errorf("%v", err)
	}
	if err := Guard(func() error { return nil }); err != nil {
		t.Errorf("%v", err)
	}
}
