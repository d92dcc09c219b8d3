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

// retires tells whether steel that comes off for a reason is done with, or goes
// back to the shelf as a set to use again.
func retires(reason string) bool {
	switch reason {
	case "rotate", "hollow", "trial":
		return false
	}
	return true
}

// breaks tells whether a reason means that something broke, not that it wore out.
func breaks(reason string) bool {
	switch reason {
	case "broken", "cracked", "bent", "chipped":
		return true
	}
	return false
}

// temporary tells whether what was done leaves the thing itself to be mended.
func temporary(remedy string) bool {
	return remedy == inventory.RemedySpare || remedy == inventory.RemedyBorrowed
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
