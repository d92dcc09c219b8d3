// Package sparepair tells which spare pair travels, and what is wrong with one that does
// not. It is pure: it looks at the record's states, never at a clock.
package sparepair

import (
	"fmt"
	"slices"
	"strings"

	"steeltally/inventory"
)

// State is what a pair or a set is good for.
type State string

// The states of readiness.
const (
	Ready    State = "ready"
	Fixable  State = "fix"      // mend the first cause first
	Missing  State = "missing"  // there is none, or somebody else has it
	Declined State = "declined" // ready, but its player would rather not
)

// Cause is one thing that keeps a pair from being ready.
type Cause struct {
	Fix     Fix              `json:"fix"`
	What    string           `json:"cause"` // in a person's words
	Minutes int              `json:"minutes"`
	Hint    string           `json:"hint"` // the command that notes it mended
	About   inventory.Number `json:"-"`    // the piece; zero: the pair itself
}

// causes collects what is wrong, the first fix first.
type causes struct {
	rules Rules
	list  []Cause
}

func (c *causes) add(fix Fix, about inventory.Number, text, hint string) {
	c.list = append(c.list, Cause{fix, text, c.rules.Minutes(fix), hint, about})
}

// sorted are the causes in the order in which they are mended.
func (c *causes) sorted() []Cause {
	order := Fixes()
	slices.SortStableFunc(c.list, func(a, b Cause) int { return slices.Index(order, a.Fix) - slices.Index(order, b.Fix) })
	return c.list
}

// SameWord tells whether two words are the same to a person.
func SameWord(a, b string) bool { return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b)) }

const mostNamed = 5

// Pieces names a few pieces, or the first and how many there are.
func Pieces(numbers []inventory.Number) string {
	if len(numbers) > mostNamed {
		return fmt.Sprintf("%d pieces (%s, …)", len(numbers), numbers[0].Short())
	}
	words := make([]string, len(numbers))
	for i, n := range numbers {
		words[i] = n.Short()
	}
	return strings.Join(words, ", ")
}
