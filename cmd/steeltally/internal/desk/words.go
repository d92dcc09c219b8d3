package desk

import (
	"fmt"

	"steeltally/geometry"
	"steeltally/inventory"
)

// sayHeight writes a height, or that it is not known.
func sayHeight(height *geometry.Millimetre) string {
	if height == nil {
		return "not known"
	}
	return height.String()
}

// sayPassesOf writes the passes of a runner, and that some are unknown.
func sayPassesOf(wear inventory.Wear) string {
	if wear.UnknownWorks == 0 {
		return fmt.Sprint(wear.Passes)
	}
	return fmt.Sprintf("%d known + %d grinds of unknown", wear.Passes, wear.UnknownWorks)
}
