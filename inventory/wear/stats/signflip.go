package stats

import (
	"cmp"
	"fmt"
	"math"
	"slices"
)

// SignFlipLimit is the most differences that SignFlip takes: it lists the sums
// of two halves, 2¹⁸ each.
const SignFlipLimit = 36

// SignFlip is the exact two-sided p that paired differences lie about 0: the
// share of all 2ⁿ ways to give them signs whose sum is at least as far from 0
// as the observed one. Source: R. A. Fisher, The Design of Experiments, 1935, §21.
func SignFlip(differences []float64) (float64, error) {
	n := len(differences)
	if n == 0 || n > SignFlipLimit {
		return 0, fmt.Errorf("%d differences: the exact count takes 1 to %d: %w", n, SignFlipLimit, ErrTooLarge)
	}
	if err := checkFinite("difference", differences...); err != nil {
		return 0, err
	}
	observed, size := 0.0, 0.0
	for _, d := range differences {
		observed += d
		size += math.Abs(d)
	}
	limit := math.Abs(observed) - 1e-12*size
	if limit <= 0 {
		return 1, nil
	}
	first, second := signedSums(differences[:n/2]), signedSums(differences[n/2:])
	beyond := 0
	from := len(second)
	for _, a := range first { // rising: the partners that reach the limit begin ever lower
		for from > 0 && a+second[from-1] >= limit {
			from--
		}
		beyond += len(second) - from
	}
	return math.Min(1, 2*float64(beyond)/math.Pow(2, float64(n))), nil
}

// signedSums lists the sums of the values with every choice of signs, in order.
func signedSums(values []float64) []float64 {
	sums := []float64{0}
	for _, v := range values {
		both := make([]float64, 0, 2*len(sums))
		for _, s := range sums {
			both = append(both, s+v, s-v)
		}
		sums = both
	}
	slices.Sort(sums)
	return sums
}

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
