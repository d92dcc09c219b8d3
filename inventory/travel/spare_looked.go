package travel

import (
	"fmt"
	"time"

	"steeltally/inventory"
)

// looked adds holders at whose bolts and rivets nobody looked lately, or since they were
// riveted on.
func (c *check) looked(report *Pair) {
	hint := "steeltally inspect " + c.pair.Number.Short()
	report.Looked = inventory.At(c.v.At)
	for _, side := range inventory.Sides() {
		holder, err := inventory.FindHolder(c.v, c.pair.HolderAt(side, c.v.At))
		if err != nil {
			continue
		}
		look, ok := lastLook(holder, c.v.At)
		report.Looked = earlier(report.Looked, look.When)
		switch {
		case !ok:
			c.add(FixLook, holder.Number, fmt.Sprintf("nobody looked at bolts and rivets of the %s holder", side), hint)
		case !look.Value.Sound:
			c.add(FixDamage, holder.Number, fmt.Sprintf("the %s holder was looked at and not sound", side), hint)
		case daysSince(look.When, c.v.At) > c.rules.LookedDays:
			c.add(FixLook, holder.Number, fmt.Sprintf("bolts and rivets looked at %d days ago, on the %s", daysSince(look.When, c.v.At), side), hint)
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
	try, ok := c.pair.TriedAt(c.v.At)
	report.Tried, report.Declined = try.When, try.Value.Declined
	hint := "steeltally tried " + c.pair.Number.Short()
	if skated, played := c.pair.SkatedAt(c.v.At); played && skated.When.Start.After(try.When.Start) {
		report.Tried, ok = skated.When, true // a game on it is more than a try
	}
	switch {
	case !ok:
		c.add(FixTry, 0, "never tried by its player", hint)
	case daysSince(report.Tried, c.v.At) > c.rules.TriedDays:
		c.add(FixTry, 0, fmt.Sprintf("tried %d days ago", daysSince(report.Tried, c.v.At)), hint)
	}
}

// daysSince counts whole days.
func daysSince(when inventory.When, at time.Time) int {
	return int(at.Sub(when.Start) / (24 * time.Hour))
}
