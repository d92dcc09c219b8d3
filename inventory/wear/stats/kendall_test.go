package stats

import (
	"math"
	"testing"
)

func ones(n int) []int {
	sizes := make([]int, n)
	for i := range sizes {
		sizes[i] = 1
	}
	return sizes
}

// Counts of permutations of five by inversions: OEIS A008302, row 5.
func TestInversionsOfFive(t *testing.T) {
	want := []float64{1, 4, 9, 15, 20, 22, 20, 15, 9, 4, 1}
	got := inversionChances(ones(5))
	if len(got) != len(want) {
		t.Fatalf("%d numbers of inversions, want %d", len(got), len(want))
	}
	for i := range want {
		if math.Abs(got[i]*120-want[i]) > 1e-10 {
			t.Errorf("%d inversions: %v of 120, want %v", i, got[i]*120, want[i])
		}
	}
}

// The q-binomial (5 over 2) is 1, 1, 2, 2, 2, 1, 1 (Stanley, §1.7).
func TestInversionsOfTwoAndThree(t *testing.T) {
	want := []float64{1, 1, 2, 2, 2, 1, 1}
	got := inversionChances([]int{2, 3})
	if len(got) != len(want) {
		t.Fatalf("%d numbers of inversions, want %d", len(got), len(want))
	}
	for i := range want {
		if math.Abs(got[i]*10-want[i]) > 1e-12 {
			t.Errorf("%d inversions: %v of 10, want %v", i, got[i]*10, want[i])
		}
	}
}

// The closed variance against the exact distribution, with ties in one ranking.
func TestKendallVarianceMatchesTheDistribution(t *testing.T) {
	for _, sizes := range [][]int{{1, 1, 1, 1, 1, 1}, {2, 3, 1}, {4, 1, 1, 2}} {
		chances, n := inversionChances(sizes), 0
		for _, s := range sizes {
			n += s
		}
		top := float64(len(chances) - 1)
		variance := 0.0
		for i, p := range chances {
			s := top - 2*float64(i)
			variance += p * s * s
		}
		if want := kendallVariance(ones(n), sizes); math.Abs(variance-want) > 1e-9 {
			t.Errorf("%v: variance %v, formula %v", sizes, variance, want)
		}
	}
}
