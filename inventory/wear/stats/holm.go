package stats

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// Holm adjusts p values for having been chosen among so many: each may be
// compared with the level that one alone would be. Source: S. Holm,
// Scandinavian Journal of Statistics 6 (1979) 65.
func Holm(ps []float64) ([]float64, error) {
	order := make([]int, len(ps))
	for i, p := range ps {
		if !(p >= 0 && p <= 1) {
			return nil, fmt.Errorf("p %d is %v: it lies between 0 and 1", i+1, p)
		}
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(ps[a], ps[b]) })
	adjusted := make([]float64, len(ps))
	highest := 0.0
	for rank, i := range order {
		highest = math.Max(highest, math.Min(1, float64(len(ps)-rank)*ps[i]))
		adjusted[i] = highest
	}
	return adjusted, nil
}
