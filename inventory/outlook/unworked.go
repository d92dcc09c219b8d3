package outlook

import (
	"slices"

	"steeltally/inventory"
)

// unworkedOf are those of some players, or of all, that were left out.
func (o *Outlook) unworkedOf(players []inventory.Number) []inventory.Unworked {
	return slices.DeleteFunc(slices.Clone(o.Unworked), func(u inventory.Unworked) bool { return !meant(u.About, players) })
}
