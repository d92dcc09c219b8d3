package travel

import (
	"slices"

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
	Fix     Fix
	What    string // in a person's words
	Hint    string // the command that notes it mended
	Minutes int
	About   inventory.Number // the piece; zero: the pair itself
}

// causes collects what is wrong, the first fix first.
type causes struct {
	rules Rules
	list  []Cause
}

func (c *causes) add(fix Fix, about inventory.Number, text, hint string) {
	c.list = append(c.list, Cause{fix, text, hint, c.rules.Minutes(fix), about})
}

// sorted are the causes in the order in which they are mended.
func (c *causes) sorted() []Cause {
	order := Fixes()
	slices.SortStableFunc(c.list, func(a, b Cause) int { return slices.Index(order, a.Fix) - slices.Index(order, b.Fix) })
	return c.list
}
