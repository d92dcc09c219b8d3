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

// sayWork writes what a runner went through at the wheel.
func sayWork(runner *inventory.Runner, wear inventory.Wear) string {
	if runner.Found != nil && wear.Grinds == 0 {
		return "nobody counted its grinds"
	}
	return fmt.Sprintf("%d grinds, %s passes", wear.Grinds, sayPassesOf(wear))
}

// sayPassesOf writes the passes of a runner, and that some are unknown.
func sayPassesOf(wear inventory.Wear) string {
	if wear.UnknownWorks == 0 {
		return fmt.Sprint(wear.Passes)
	}
	return fmt.Sprintf("%d known + %d grinds of unknown", wear.Passes, wear.UnknownWorks)
}
