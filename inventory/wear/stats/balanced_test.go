package stats

import (
	"math"
	"testing"
)

// Data: Davies and Goldsmith, 1972. Values: R 4.2.2, lme4 1.1-31, lmer (REML).
func TestBalancedDyestuff(t *testing.T) {
	batches := map[string][]float64{}
	for _, row := range reference(t, "dyestuff.csv") {
		batches[row["Batch"]] = append(batches[row["Batch"]], number(t, row, "Yield"))
	}
	var groups [][]float64
	for _, name := range []string{"A", "B", "C", "D", "E", "F"} {
		groups = append(groups, batches[name])
	}
	b, err := BalancedREML(groups)
	if err != nil {
		t.Fatal(err)
	}
	same(t, "between", b.Between, "1764.05")
	same(t, "within", b.Within, "2451.25")
	same(t, "mean", b.Mean, "1527.5")
	for i, want := range []string{"1509.893", "1527.891", "1556.062", "1504.415", "1584.233", "1482.505"} {
		same(t, "batch mean", b.Shrunken[i], want)
	}
}

func TestBalancedGroupsAlike(t *testing.T) {
	b, err := BalancedREML([][]float64{{1, 3}, {1, 3}, {3, 1}})
	// Six values with squares of 6 about their mean: variance 6/5.
	if err != nil || b.Between != 0 || math.Abs(b.Within-1.2) > 1e-12 || b.Shrunken[0] != 2 {
		t.Errorf("%+v, %v: want no spread between, 1.2 within", b, err)
	}
	if _, err := BalancedREML([][]float64{{1, 2}, {1}}); err == nil {
		t.Error("unequal groups passed")
	}
}
