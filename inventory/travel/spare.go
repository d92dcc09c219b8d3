package travel

import (
	"fmt"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
)

// SparePair tells whether a player's spare pair is ready: nothing open on it, the same
// family, pitch, hollow and profile as he skates today, as high as his first pair,
// ground since it was last skated, looked at, tried, at a known place, and ours.
func SparePair(v inventory.View, player *inventory.Player, at time.Time) Pair {
	pair, err := inventory.PairInRole(v, player, inventory.RoleSpare, at)
	if err != nil || pair.ScrappedAt(at) {
		return Pair{Role: inventory.RoleSpare, State: Missing, Causes: []Cause{{
			What: "no spare pair", Hint: "steeltally pair add " + typed(v, player, at) + " --role spare",
		}}}
	}
	c := newCheck(v, player, pair, at)
	report := c.report()
	if custody, away := c.elsewhere(); away {
		report.State = Missing
		report.Causes = []Cause{{What: custody.String(), Hint: "steeltally custody back " + pair.Number.Short(), About: pair.Number}}
		return report
	}
	c.damages()
	if report.Place == (inventory.Place{}) {
		c.add(FixPlace, 0, "steeltally put "+pair.Number.Short()+" --place PLACE", "nobody noted where it is")
	}
	if set := c.fitted(); set != nil {
		report.Set = set.Letter
		report.Ground = compareSteel(&c.causes, player, set, at)
		c.ground(&report, set)
	}
	c.against(&report)
	c.pitch(&report)
	c.looked(&report)
	c.tried(&report)
	return c.done(report)
}

// ground adds steel that was not ground since it was last skated.
func (c *check) ground(report *Pair, set *inventory.Set) {
	report.Skated = c.lastSkated(set)
	hint := "steeltally grind " + c.pair.Number.Short()
	switch {
	case report.Ground.Never:
		c.add(FixGrind, 0, hint, "never ground")
	case report.Ground.When.Start.Before(report.Skated.Start):
		c.add(FixGrind, 0, hint, "not ground since it was skated")
	}
}

// lastSkated is when the pair or its steel was last skated: as somebody said, when it
// stopped being the first pair, or when its set came off a first pair.
func (c *check) lastSkated(set *inventory.Set) inventory.When {
	skated, _ := c.pair.SkatedAt(c.at)
	last := skated.When
	was := ""
	for _, role := range c.pair.Roles.Until(c.at) {
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
	for _, use := range set.Uses.Until(c.at) {
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

// against compares the holders' family and the steel's height with the first pair.
func (c *check) against(report *Pair) {
	first, err := inventory.PairInRole(c.v, c.player, inventory.RoleFirst, c.at)
	if err != nil {
		return
	}
	for _, side := range inventory.Sides() {
		c.family(first, side)
		spare, on := c.pair.SeatAt(side, c.at).Runner, first.SeatAt(side, c.at).Runner
		if spare == 0 || on == 0 {
			continue
		}
		here, there := heightOf(c.v, spare, c.at), heightOf(c.v, on, c.at)
		report.Heights.Put(side, &here)
		report.Against.Put(side, &there)
		c.height(report, side, spare, on)
	}
}

// height adds steel that is lower or higher than the first pair's, or at its end.
func (c *check) height(report *Pair, side inventory.Side, spare, on inventory.Number) {
	here, there := report.Heights.Of(side).Height, report.Against.Of(side).Height
	change := report.Specs.ChangeHeight
	switch {
	case here == nil:
		c.add(FixMeasure, spare, "steeltally measure "+spare.Short()+" HEIGHT", "height of the %s steel not known", side)
	case change != nil && *here <= *change:
		c.add(FixHeight, spare, c.changeHint("low"), "low: %s %s, to be changed at %s", side, here, change)
	case there == nil:
		c.add(FixMeasure, on, "steeltally measure "+on.Short()+" HEIGHT", "height of the first pair's %s steel not known", side)
	case !near(*here, *there, c.rules.HeightWithin+rounding) && *here < *there:
		c.add(FixHeight, spare, c.changeHint("rotate"), "low: %s %s, first pair %s", side, here, there)
	case !near(*here, *there, c.rules.HeightWithin+rounding):
		c.add(FixHeight, spare, c.changeHint("rotate"), "high: %s %s, first pair %s", side, here, there)
	}
}

// changeHint is the command that puts other steel in: of the ready sets the one whose
// height is nearest to the first pair's.
func (c *check) changeHint(reason string) string {
	letter, nearest := "SET", geometry.Millimetre(0)
	for _, set := range ReadySets(c.v, c.player, c.at) {
		if set.State != Ready || set.Felt.Left == nil || set.Felt.Right == nil {
			continue
		}
		difference := max(*set.Felt.Left, -*set.Felt.Left, *set.Felt.Right, -*set.Felt.Right)
		if letter == "SET" || difference < nearest {
			letter, nearest = set.Letter, difference
		}
	}
	return fmt.Sprintf("steeltally change %s %s --reason %s --pair %s", typed(c.v, c.player, c.at), letter, reason, c.pair.Role(c.at))
}

// rounding keeps a difference of just the threshold from failing by its last bit.
const rounding geometry.Millimetre = 1e-9

// family adds holders of another family than the first pair's.
func (c *check) family(first *inventory.Pair, side inventory.Side) {
	here, errHere := inventory.FindHolder(c.v, c.pair.HolderAt(side, c.at))
	there, errThere := inventory.FindHolder(c.v, first.HolderAt(side, c.at))
	if errHere != nil || errThere != nil || here.Model == there.Model {
		return
	}
	mine, other := inventory.FamilyOf(c.v, &here.Stock), inventory.FamilyOf(c.v, &there.Stock)
	switch {
	case mine == "" || other == "":
		c.add(FixFamily, here.Number, "steeltally model add says what family a model is of",
			"%s holder is a %s, the first pair's a %s; nobody declared their families", side, here.Model, there.Model)
	case mine != other:
		c.add(FixFamily, here.Number, "steeltally rivet off "+here.Number.Short(), "%s holder of family %s, first pair's %s", side, mine, other)
	}
}

// pitch compares how the holders are pitched with the specs. Where nobody said it of
// the pair, the pitch is that of the specs when the holders were riveted on.
func (c *check) pitch(report *Pair) {
	noted, ok := c.pair.PitchAt(c.at)
	if riveted := c.riveted(); ok && !noted.When.Start.Before(riveted.Start) {
		report.Pitch = &noted.Value
	} else if !riveted.Unknown() {
		report.Pitch = c.player.SpecsAt(riveted.Start).Pitch
	}
	want := report.Specs.Pitch
	if want != nil && report.Pitch != nil && !near(*want, *report.Pitch, 0.05) {
		c.add(FixPitch, 0, fmt.Sprintf("steeltally pair pitch %s %gmm", c.pair.Number.Short(), float64(*want)),
			"%s against %s", inventory.SayPitch(*report.Pitch), inventory.SayPitch(*want))
	}
}

// riveted is when the pair got the holder that it got last.
func (c *check) riveted() inventory.When {
	var last inventory.When
	for _, side := range inventory.Sides() {
		holders := c.pair.Boot(side).Holders.Until(c.at)
		if len(holders) > 0 && holders[len(holders)-1].Value != 0 {
			last = later(last, holders[len(holders)-1].When)
		}
	}
	return last
}

// looked adds holders at whose bolts and rivets nobody looked lately, or since they were
// riveted on.
func (c *check) looked(report *Pair) {
	hint := "steeltally inspect " + c.pair.Number.Short()
	report.Looked = inventory.At(c.at)
	for _, side := range inventory.Sides() {
		holder, err := inventory.FindHolder(c.v, c.pair.HolderAt(side, c.at))
		if err != nil {
			continue
		}
		look, ok := lastLook(holder, c.at)
		report.Looked = earlier(report.Looked, look.When)
		switch {
		case !ok:
			c.add(FixLook, holder.Number, hint, "nobody looked at bolts and rivets of the %s holder", side)
		case !look.Value.Sound:
			c.add(FixDamage, holder.Number, hint, "the %s holder was looked at and not sound", side)
		case daysSince(look.When, c.at) > c.rules.LookedDays:
			c.add(FixLook, holder.Number, hint, "bolts and rivets looked at %d days ago, on the %s", daysSince(look.When, c.at), side)
		}
	}
}

// lastLook is the last look at a holder since it was riveted on.
func lastLook(holder *inventory.Holder, at time.Time) (inventory.Dated[inventory.Look], bool) {
	looks, boots := holder.Inspected.Until(at), holder.Boots.Until(at)
	if len(looks) == 0 {
		return inventory.Dated[inventory.Look]{}, false
	}
	last := looks[len(looks)-1]
	if len(boots) > 0 && last.When.Start.Before(boots[len(boots)-1].When.Start) {
		return inventory.Dated[inventory.Look]{}, false
	}
	return last, true
}

func earlier(a, b inventory.When) inventory.When {
	if b.Start.Before(a.Start) {
		return b
	}
	return a
}

// tried adds a pair that its player has not tried lately, and notes what he said.
func (c *check) tried(report *Pair) {
	try, ok := c.pair.TriedAt(c.at)
	report.Tried, report.Declined = try.When, try.Value.Declined
	hint := "steeltally tried " + c.pair.Number.Short()
	if skated, played := c.pair.SkatedAt(c.at); played && skated.When.Start.After(try.When.Start) {
		report.Tried, ok = skated.When, true // a game on it is more than a try
	}
	switch {
	case !ok:
		c.add(FixTry, 0, hint, "never tried by its player")
	case daysSince(report.Tried, c.at) > c.rules.TriedDays:
		c.add(FixTry, 0, hint, "tried %d days ago", daysSince(report.Tried, c.at))
	}
}

// daysSince counts whole days.
func daysSince(when inventory.When, at time.Time) int {
	return int(at.Sub(when.Start) / (24 * time.Hour))
}
