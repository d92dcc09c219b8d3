package book

import (
	"math/rand/v2"
	"testing"
)

func TestSpansAgainstASet(t *testing.T) {
	random := rand.New(rand.NewPCG(1, 1))
	for range 200 {
		var list spans
		set := map[uint64]bool{}
		for range random.IntN(60) {
			n := 1 + random.Uint64N(40)
			if list.add(n) == set[n] {
				t.Fatalf("%d in %v", n, list)
			}
			set[n] = true
		}
		checkSpans(t, list, set)
	}
}

func checkSpans(t *testing.T, list spans, set map[uint64]bool) {
	t.Helper()
	missing := map[uint64]bool{}
	for _, hole := range list.holes() {
		for n := hole.From; n <= hole.To; n++ {
			missing[n] = true
		}
	}
	last := uint64(0)
	for n := range set {
		last = max(last, n)
	}
	for n := uint64(1); n <= last; n++ {
		if set[n] == missing[n] {
			t.Errorf("%d is there: %v, missing: %v in %v", n, set[n], missing[n], list)
		}
	}
	if len(missing)+len(set) != int(last) {
		t.Errorf("%d there, %d missing, the last is %d", len(set), len(missing), last)
	}
}

func TestGapsAreFilled(t *testing.T) {
	h := head{Gaps: []gap{{writerID{1}, span{3, 6}}, {writerID{2}, span{1, 1}}}}
	for _, n := range []uint64{4, 6, 3, 5} {
		key := packedKey{0: 1, 15: byte(n)}
		i := h.gapAt(key)
		if i < 0 {
			t.Fatalf("%d is in no gap of %v", n, h.Gaps)
		}
		h.fill(i, n)
		if h.gapAt(key) >= 0 {
			t.Errorf("%d is still in a gap of %v", n, h.Gaps)
		}
	}
	if len(h.Gaps) != 1 || h.Gaps[0].Writer != (writerID{2}) {
		t.Errorf("left: %v", h.Gaps)
	}
}
