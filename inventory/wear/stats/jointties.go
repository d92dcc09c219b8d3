package stats

import (
	"fmt"
	"maps"
	"math"
	"slices"
)

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
