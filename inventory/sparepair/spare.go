package sparepair

import (
	"fmt"
	"time"

	"steeltally/geometry"
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
		c.add(FixFirst, 0, "he skates on it for the moment: mend his first pair", "steeltally emergency close "+inventory.Typed(v, player, v.At))
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

// lastLook is the last look at a holder since it was riveted on, and since it came back.
func lastLook(holder *inventory.Holder, at time.Time) (inventory.Dated[inventory.Look], bool) {
	looks, boots := holder.Inspected.Until(at), holder.Boots.Until(at)
	back, _, _ := holder.CameBack(at)
	if len(boots) > 0 {
		back = later(back, boots[len(boots)-1].When)
	}
	if len(looks) == 0 || looks[len(looks)-1].When.Start.Before(back.Start) {
		return inventory.Dated[inventory.Look]{}, false
	}
	return looks[len(looks)-1], true
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
// height is nearest to the first pair's. Where none is as near as the rules ask, and what is
// on is not done with, another one has to be matched.
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
	who := inventory.Typed(c.v, c.player, c.v.At)
	if reason == inventory.ReasonRotate && (letter == "SET" || nearest > c.rules.HeightWithin+rounding) {
		return "match a set as high as his first pair's: steeltally set add " + who + " --left RUNNER --right RUNNER"
	}
	return fmt.Sprintf("steeltally change %s %s --reason %s --pair %s", who, letter, reason, c.pair.Role(c.v.At))
}

// rounding keeps a difference of just the threshold from failing by its last bit.
const rounding geometry.Millimetre = 1e-9

// Ground is how a set was last ground.
type Ground struct {
	When    inventory.When
	Hollow  *inventory.Cut    // nil: nobody knows
	Profile inventory.Profile // nil: nobody said
	Never   bool
}

// groundOf is how a set was last ground by an instant. What it was ground to is what
// was said then, else the player's specs of that time. A set has its profile from its
// last profiling, else from when it was made.
func groundOf(player *inventory.Player, set *inventory.Set, at time.Time) Ground {
	ground := Ground{Never: standing.NeverGround(set, at)}
	profiled := set.Since
	for _, work := range set.Works.Until(at) {
		switch work.Value.Kind {
		case inventory.WorkGrind, inventory.WorkNewHollow:
			ground.When, ground.Hollow = work.When, work.Value.Hollow
		case inventory.WorkProfile:
			profiled = work.When
		}
	}
	ground.Profile = player.SpecsAt(profiled.Start).Profile
	return ground
}

// compareSteel adds what is wrong with a set's hollow and profile against the player's
// specs.
func compareSteel(c *causes, player *inventory.Player, set *inventory.Set, at time.Time) Ground {
	specs, ground := player.SpecsAt(at), groundOf(player, set, at)
	who := set.Number.Short()
	switch {
	case specs.Hollow == nil || ground.Never:
	case ground.Hollow == nil:
		c.add(FixHollow, set.Number, fmt.Sprintf("hollow not known, should be %s", specs.Hollow), "steeltally grind "+who)
	case !sameCut(*ground.Hollow, *specs.Hollow):
		c.add(FixHollow, set.Number, fmt.Sprintf("hollow %s against %s", ground.Hollow, specs.Hollow),
			"steeltally grind "+who+" --work new-hollow --hollow "+flagCut(*specs.Hollow))
	}
	if specs.Profile != nil && ground.Profile != nil && !specs.Profile.Equal(ground.Profile) {
		c.add(FixProfile, set.Number, fmt.Sprintf("profile %s against %s", ground.Profile, specs.Profile), "steeltally grind "+who+" --work profile --unknown")
	}
	return ground
}

// sameCut tells whether two cuts are the same to 0.05 mm of radius or width, finer than
// any wheel is dressed.
func sameCut(a, b inventory.Cut) bool {
	return near(a.Radius, b.Radius, 0.05) && near(a.FlatWidth, b.FlatWidth, 0.05) && near(a.EdgeHeight, b.EdgeHeight, 0.002)
}

func near(a, b, within geometry.Millimetre) bool { return max(a, b)-min(a, b) <= within }

// flagCut is a cut as a command line takes it.
func flagCut(cut inventory.Cut) string {
	text, _ := cut.MarshalText()
	if cut.FlatWidth > 0 {
		return `"` + string(text) + `"`
	}
	return string(text)
}
