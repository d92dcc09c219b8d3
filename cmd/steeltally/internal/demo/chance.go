package demo

import (
	"math/rand/v2"
	"time"
)

// chance is the simulator's one source of luck.
type chance struct{ *rand.Rand }

// happens tells whether something of a probability comes about.
func (c chance) happens(probability float64) bool { return c.Float64() < probability }

// between draws a whole number from low to high, both included.
func (c chance) between(low, high int) int { return low + c.IntN(high-low+1) }

// within draws a while from least to most, in whole seconds.
func (c chance) within(least, most time.Duration) time.Duration {
	return least + time.Duration(c.Int64N(int64(most-least))).Truncate(time.Second)
}

// about draws a whole number, 0 or more, with a mean: the whole part for certain and
// the rest by luck.
func (c chance) about(mean float64) int {
	whole := int(mean)
	if c.happens(mean - float64(whole)) {
		whole++
	}
	return whole
}

// oneOf draws one of a list.
func oneOf[T any](c chance, list ...T) T { return list[c.IntN(len(list))] }

// shuffled is a copy of a list in another order.
func shuffled[T any](c chance, list []T) []T {
	mixed := append([]T(nil), list...)
	c.Shuffle(len(mixed), func(i, j int) { mixed[i], mixed[j] = mixed[j], mixed[i] })
	return mixed
}
