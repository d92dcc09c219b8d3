package travel

import (
	"fmt"

	"steeltally/geometry"
	"steeltally/inventory"
)

// height adds steel that is lower or higher than the first pair's, or at its end.
func (c *check) height(report *Pair, side inventory.Side, spare, on inventory.Number) {
	here, there := report.Heights.Of(side).Now, report.Against.Of(side).Now
	change := report.Specs.ChangeHeight
	switch {
	case here == nil:
		c.add(FixMeasure, spare, fmt.Sprintf("height of the %s steel not known", side), "steeltally measure "+spare.Short()+" HEIGHT")
	case change != nil && *here <= *change:
		c.add(FixHeight, spare, fmt.Sprintf("low: %s %s, to be changed at %s", side, here, change), c.changeHint(inventory.ReasonLow))
	case there == nil:
		c.add(FixMeasure, on, fmt.Sprintf("height of the first pair's %s steel not known", side), "steeltally measure "+on.Short()+" HEIGHT")
	case !near(*here, *there, c.rules.HeightWithin+rounding) && *here < *there:
		c.add(FixHeight, spare, fmt.Sprintf("low: %s %s, first pair %s", side, here, there), c.changeHint(inventory.ReasonRotate))
	case !near(*here, *there, c.rules.HeightWithin+rounding):
		c.add(FixHeight, spare, fmt.Sprintf("high: %s %s, first pair %s", side, here, there), c.changeHint(inventory.ReasonRotate))
	}
}

// changeHint is the command that puts other steel in: of the ready sets the one whose
// height is nearest to the first pair's.
func (c *check) changeHint(reason inventory.Reason) string {
	letter, nearest := "SET", geometry.Millimetre(0)
	for _, set := range ReadySets(c.v, c.player) {
		if set.State != Ready || set.Felt.Left == nil || set.Felt.Right == nil {
			continue
		}
		difference := max(*set.Felt.Left, -*set.Felt.Left, *set.Felt.Right, -*set.Felt.Right)
		if letter == "SET" || difference < nearest {
			letter, nearest = set.Letter, difference
		}
	}
	return fmt.Sprintf("steeltally change %s %s --reason %s --pair %s", typed(c.v, c.player, c.v.At), letter, reason, c.pair.Role(c.v.At))
}

// rounding keeps a difference of just the threshold from failing by its last bit.
const rounding geometry.Millimetre = 1e-9
