package deeds

import (
	"fmt"
	"slices"

	"steeltally/inventory"
)

// oneOf checks a word against the words that the record takes, and lists them where
// it is none.
func oneOf[T ~string](what string, word T, known []T) error {
	if slices.Contains(known, word) {
		return nil
	}
	return fmt.Errorf("%s %q is not known; take one of %s", what, inventory.Clip(string(word)), inventory.List(known))
}

// movesSteel tells whether a body says where steel is, or takes that back.
func movesSteel(body inventory.Body) bool {
	switch b := body.(type) {
	case *inventory.PutIn, *inventory.TakenOut, *inventory.Riveted, *inventory.SetMade:
		return true
	case *inventory.Correction:
		return b.Moves
	}
	return false
}

// checkCut refuses a cut that was given and that no wheel makes.
func checkCut(c *inventory.Cut) error {
	if c == nil || c.Unknown() {
		return nil
	}
	if err := c.Check(); err != nil {
		return inventory.RefuseValue(err.Error(), "")
	}
	return nil
}
