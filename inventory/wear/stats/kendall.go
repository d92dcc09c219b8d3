// Package stats holds the published procedures that the wear figures rest on:
// lines through heights, pooling of estimates, life tables with several ends,
// and exact comparisons of counts. Everything is a pure function of plain
// numbers; what cannot be computed is an error that says why, never NaN.
//
// Distributions come from gonum. Roots in one unknown are our own (gonum's
// optimize seeks minima), and so are the binomial coefficients of the exact
// tests, whose tails are summed by point probability.
package stats

import (
	"fmt"
	"maps"
	"math"
	"slices"
)

// kendallS is the number of pairs in the same order less those in the opposite.
func kendallS(x, y []float64) int {
	s := 0
	for i := range x {
		for j := range i {
			s += sign(x[i]-x[j]) * sign(y[i]-y[j])
		}
	}
	return s
}

func sign(d float64) int {
	switch {
	case d > 0:
		return 1
	case d < 0:
		return -1
	}
	return 0
}

// inversionChances gives the chance of each number of inversions when a
// multiset with these group sizes is laid out at random: the coefficients of
// the q-multinomial. Source: R. P. Stanley, Enumerative Combinatorics 1, §1.7.
func inversionChances(sizes []int) []float64 {
	chances := []float64{1}
	laid := 0
	for _, size := range sizes {
		laid += size
		chances = convolve(chances, mixingChances(laid, size))
	}
	return chances
}

// mixingChances gives the chance of each number of inversions between k equal
// things and n−k other equal things in random order: the q-binomial by
// Pascal's rule, which only adds and so keeps small chances exact.
func mixingChances(n, k int) []float64 {
	rows := make([][]float64, k+1)
	rows[0] = []float64{1}
	for m := 1; m <= n; m++ {
		for j := min(m, k); j >= 1; j-- {
			next := make([]float64, j*(m-j)+1)
			addScaled(next, rows[j-1], float64(j)/float64(m))
			if m > j {
				addScaled(next[j:], rows[j], float64(m-j)/float64(m))
			}
			rows[j] = next
		}
	}
	return rows[k]
}

// addScaled adds scale·values to the front of sums.
func addScaled(sums, values []float64, scale float64) {
	for i, v := range values {
		sums[i] += scale * v
	}
}

// convolve is the distribution of a sum from those of its two parts.
func convolve(a, b []float64) []float64 {
	sum := make([]float64, len(a)+len(b)-1)
	for i, p := range a {
		addScaled(sum[i:], b, p)
	}
	return sum
}

// kendallVariance is the variance of S under no trend, with ties in x, in y or
// in both. Source: M. G. Kendall, Rank Correlation Methods, 1948, ch. 4.
func kendallVariance(x, y []int) float64 {
	n := 0
	for _, size := range x {
		n += size
	}
	full := func(size float64) float64 { return size * (size - 1) * (2*size + 5) }
	triples := func(size float64) float64 { return size * (size - 1) * (size - 2) }
	pairs := func(size float64) float64 { return size * (size - 1) }
	total := float64(n)
	v := (full(total) - sumOver(x, full) - sumOver(y, full)) / 18
	if n > 2 {
		v += sumOver(x, triples) * sumOver(y, triples) / (9 * triples(total))
	}
	if n > 1 {
		v += sumOver(x, pairs) * sumOver(y, pairs) / (2 * pairs(total))
	}
	return v
}

func sumOver(sizes []int, f func(float64) float64) float64 {
	sum := 0.0
	for _, size := range sizes {
		sum += f(float64(size))
	}
	return sum
}

const largestTie = 255 // sizes are kept in bytes

// jointTieChances is the distribution of Kendall's S where times and values
// both tie: time group after time group draws its values from what remains, and
// what matters afterwards is only what remains.
func jointTieChances(times, values []int) (trendChances, error) {
	if slices.Max(times) > largestTie || slices.Max(values) > largestTie {
		return trendChances{}, fmt.Errorf("more than %d values tie: %w", largestTie, ErrTooLarge)
	}
	states := map[string]trendChances{stateKey(values): {chance: []float64{1}}}
	for _, size := range times {
		next := map[string]trendChances{}
		for _, key := range slices.Sorted(maps.Keys(states)) { // in order: sums round alike every time
			remaining, so := []byte(key), states[key]
			spreadDraws(remaining, size, func(drawn []int, chance float64) {
				left := takeAway(remaining, drawn)
				next[left] = next[left].plus(so, pairsWon(remaining, drawn), chance)
			})
			if len(next) > jointTieStates {
				return trendChances{}, fmt.Errorf("times and values tie in too many ways: %w", ErrTooLarge)
			}
		}
		states = next
	}
	return states[stateKey(make([]int, len(values)))], nil
}

// plus adds a distribution, shifted and scaled.
func (c trendChances) plus(d trendChances, shift int, scale float64) trendChances {
	low, high := d.low+shift, d.low+shift+len(d.chance)-1
	if len(c.chance) > 0 {
		low, high = min(low, c.low), max(high, c.low+len(c.chance)-1)
	}
	sum := trendChances{low: low, chance: make([]float64, high-low+1)}
	if len(c.chance) > 0 {
		addScaled(sum.chance[c.low-low:], c.chance, 1)
	}
	addScaled(sum.chance[d.low+shift-low:], d.chance, scale)
	return sum
}

// spreadDraws visits every way to draw so many things from groups, with its
// chance (multivariate hypergeometric).
func spreadDraws(groups []byte, draw int, visit func(drawn []int, chance float64)) {
	total := 0
	for _, g := range groups {
		total += int(g)
	}
	drawn := make([]int, len(groups))
	var fill func(group, left int, logChance float64)
	fill = func(group, left int, logChance float64) {
		if group == len(groups) {
			if left == 0 {
				visit(drawn, math.Exp(logChance-logChoose(total, draw)))
			}
			return
		}
		for n := 0; n <= min(left, int(groups[group])); n++ {
			drawn[group] = n
			fill(group+1, left-n, logChance+logChoose(int(groups[group]), n))
		}
	}
	fill(0, draw, 0)
}

// pairsWon is S between the things drawn and those that come later.
func pairsWon(remaining []byte, drawn []int) int {
	s := 0
	for i, n := range drawn {
		for j, g := range remaining {
			s += n * (int(g) - drawn[j]) * sign(float64(j-i))
		}
	}
	return s
}

func takeAway(remaining []byte, drawn []int) string {
	left := make([]byte, len(remaining))
	for i, g := range remaining {
		left[i] = g - byte(drawn[i])
	}
	return string(left)
}

func stateKey(sizes []int) string {
	key := make([]byte, len(sizes))
	for i, s := range sizes {
		key[i] = byte(s)
	}
	return string(key)
}
