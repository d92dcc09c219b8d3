package desk

import (
	"fmt"

	"steeltally/geometry"
	"steeltally/inventory"
)

// SayCount writes a number of things: "1 tag", "2 tags".
func SayCount(n int, thing string) string {
	if n == 1 {
		return "1 " + thing
	}
	return fmt.Sprintf("%d %ss", n, thing)
}

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
	return fmt.Sprintf("%s, %s passes", SayCount(wear.Grinds, "grind"), sayPassesOf(wear))
}

// sayPassesOf writes the passes of a runner, and that some are unknown.
func sayPassesOf(wear inventory.Wear) string {
	if wear.UnknownWorks == 0 {
		return fmt.Sprint(wear.Passes)
	}
	return fmt.Sprintf("%d known + %s of unknown", wear.Passes, SayCount(wear.UnknownWorks, "grind"))
}
