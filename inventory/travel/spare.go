package travel

import (
	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// SparePair tells whether a player's spare pair is ready: nothing open on it, the same
// family, pitch, hollow and profile as he skates today, as high as his first pair,
// ground since it was last skated, looked at, tried, at a known place, and ours.
func SparePair(v *standing.Now, player *inventory.Player) Pair {
	c, report := begin(v, player, inventory.RoleSpare)
	if report.State == Missing {
		return report
	}
	if on, err := standing.SkatesOn(v, player, v.At); err == nil && on.Number == report.Number {
		c.add(FixFirst, 0, "he skates on it for the moment: mend his first pair", "steeltally emergency close "+typed(v, player, v.At))
	}
	c.damages()
	if report.Place == (inventory.Place{}) {
		c.add(FixPlace, 0, "nobody noted where it is", "steeltally put "+report.Number.Short()+" --place PLACE")
	}
	if set := c.fitted(); set != nil {
		report.Set = set.Letter
		report.Ground = compareSteel(&c.causes, player, set, v.At)
		c.ground(&report, set)
	}
	c.against(&report)
	c.pitch(&report)
	c.looked(&report)
	c.tried(&report)
	return c.done(report)
}

// against compares the holders' family and the steel's height with the first pair.
func (c *check) against(report *Pair) {
	first, err := inventory.PairInRole(c.v, c.player, inventory.RoleFirst, c.v.At)
	if err != nil {
		return
	}
	for _, side := range inventory.Sides() {
		c.family(first, side)
		spare, on := c.pair.SeatAt(side, c.v.At).Runner, first.SeatAt(side, c.v.At).Runner
		if spare == 0 || on == 0 {
			continue
		}
		here, there := c.v.HeightOf(spare), c.v.HeightOf(on)
		report.Heights.Put(side, &here)
		report.Against.Put(side, &there)
		c.height(report, side, spare, on)
	}
}
