package travel

import (
	"fmt"

	"steeltally/inventory"
)

// family adds holders of another family than the first pair's.
func (c *check) family(first *inventory.Pair, side inventory.Side) {
	here, errHere := inventory.FindHolder(c.v, c.pair.HolderAt(side, c.v.At))
	there, errThere := inventory.FindHolder(c.v, first.HolderAt(side, c.v.At))
	if errHere != nil || errThere != nil || here.Model == there.Model {
		return
	}
	mine, other := inventory.FamilyOf(c.v, &here.Stock), inventory.FamilyOf(c.v, &there.Stock)
	switch {
	case mine == "" || other == "":
		c.add(FixFamily, here.Number, fmt.Sprintf("%s holder is a %s, the first pair's a %s; nobody declared their families", side, here.Model, there.Model),
			"steeltally model add says what family a model is of")
	case mine != other:
		c.add(FixFamily, here.Number, fmt.Sprintf("%s holder of family %s, first pair's %s", side, mine, other), "steeltally rivet off "+here.Number.Short())
	}
}

// pitch compares how the holders are pitched with the specs. Where nobody said it of
// the pair, the pitch is that of the specs when the holders were riveted on.
func (c *check) pitch(report *Pair) {
	noted, ok := c.pair.PitchAt(c.v.At)
	if riveted := c.riveted(); ok && !noted.When.Start.Before(riveted.Start) {
		report.Pitch = &noted.Value
	} else if !riveted.Unknown() {
		report.Pitch = c.player.SpecsAt(riveted.Start).Pitch
	}
	want := report.Specs.Pitch
	if want != nil && report.Pitch != nil && !near(*want, *report.Pitch, 0.05) {
		c.add(FixPitch, 0, fmt.Sprintf("%s against %s", inventory.SayPitch(*report.Pitch), inventory.SayPitch(*want)),
			fmt.Sprintf("steeltally pair pitch %s %gmm", c.pair.Number.Short(), float64(*want)))
	}
}

// riveted is when the pair got the holder that it got last.
func (c *check) riveted() inventory.When {
	var last inventory.When
	for _, side := range inventory.Sides() {
		holders := c.pair.Boot(side).Holders.Until(c.v.At)
		if len(holders) > 0 && holders[len(holders)-1].Value != 0 {
			last = later(last, holders[len(holders)-1].When)
		}
	}
	return last
}
