package truth

import (
	"math/rand/v2"

	"steeltally/geometry"
)

// PassesLeft grinds a copy of the runner, session after session, until it is
// at or below the change height, and tells after how many more passes that
// was: within the last grind in proportion. A runner already there has none.
func (c Club) PassesLeft(r *rand.Rand, steel Runner, change geometry.Millimetre) float64 {
	passed := 0
	for steel.Height > change {
		passes, before := c.SessionPasses(r), steel.Height
		c.Grind(r, &steel, passes)
		if steel.Height <= change {
			return float64(passed) + float64(passes)*float64((before-change)/(before-steel.Height))
		}
		passed += passes
	}
	return 0
}
