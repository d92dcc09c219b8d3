package travel

import (
	"steeltally/inventory"
)

// ground adds steel that was not ground since it was last skated.
func (c *check) ground(report *Pair, set *inventory.Set) {
	report.Skated = c.lastSkated(set)
	hint := "steeltally grind " + c.pair.Number.Short()
	switch {
	case report.Ground.Never:
		c.add(FixGrind, 0, "never ground", hint)
	case report.Ground.When.Start.Before(report.Skated.Start):
		c.add(FixGrind, 0, "not ground since it was skated", hint)
	}
}

// lastSkated is when the pair or its steel was last skated: as somebody said, when it
// stopped being the first pair, or when its set came off a first pair.
func (c *check) lastSkated(set *inventory.Set) inventory.When {
	skated, _ := c.pair.SkatedAt(c.v.At)
	last := skated.When
	was := inventory.Role("")
	for _, role := range c.pair.Roles.Until(c.v.At) {
		if was == inventory.RoleFirst && role.Value != inventory.RoleFirst {
			last = later(last, role.When)
		}
		was = role.Value
	}
	return later(last, c.offFirst(set))
}

// offFirst is when a set last came off a pair that was its player's first.
func (c *check) offFirst(set *inventory.Set) inventory.When {
	var last inventory.When
	on := map[inventory.Side]inventory.Number{}
	for _, use := range set.Uses.Until(c.v.At) {
		if was := on[use.Value.Side]; use.Value.Pair == 0 && was != 0 {
			pair, err := inventory.FindPair(c.v, was)
			if err == nil && pair.Role(use.When.Start) == inventory.RoleFirst {
				last = later(last, use.When)
			}
		}
		on[use.Value.Side] = use.Value.Pair
	}
	return last
}

func later(a, b inventory.When) inventory.When {
	if a.Start.Before(b.Start) {
		return b
	}
	return a
}
