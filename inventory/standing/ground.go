package standing

import (
	"time"

	"steeltally/inventory"
)

// NeverGround tells whether a set in the record was not ground yet at an instant; honing is
// no grind.
func NeverGround(set *inventory.Set, at time.Time) bool {
	return set != nil && set.Number != 0 && !set.GroundSince(time.Time{}, at)
}
