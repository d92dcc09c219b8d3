package travel

import (
	"fmt"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/standing"
)

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
