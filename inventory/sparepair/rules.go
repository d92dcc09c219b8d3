package sparepair

import (
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
)

// Rules are the thresholds of a ready spare pair as they hold for one player.
type Rules struct {
	HeightWithin geometry.Millimetre // of the first pair, on each side
	TriedDays    int                 // a try counts so long
	LookedDays   int                 // a look at bolts and rivets counts so long
	Sets         int                 // ready sets that travel with a player
	set          inventory.SpareRules
}

// RulesOf are the thresholds that hold for a player at an instant: what the club set,
// else common practice, no source.
func RulesOf(v inventory.View, player inventory.Number, at time.Time) Rules {
	set := inventory.SpareRulesAt(v, player, at)
	rules := Rules{HeightWithin: 0.5, TriedDays: 30, LookedDays: 30, set: set}
	if set.HeightWithin != nil {
		rules.HeightWithin = *set.HeightWithin
	}
	for _, count := range []struct{ to, from *int }{{&rules.TriedDays, set.TriedDays}, {&rules.LookedDays, set.LookedDays}, {&rules.Sets, set.Sets}} {
		if count.from != nil {
			*count.to = *count.from
		}
	}
	return rules
}

// Fix is a sort of thing that has to be mended before a pair is ready.
type Fix string

// The fixes, in the order in which they come first: what is dangerous before what is
// gone, what is not there before what is wrong with it.
const (
	FixHolder  Fix = "holder"  // another holder has to be riveted on
	FixSteel   Fix = "steel"   // other steel has to go in
	FixDamage  Fix = "damage"  // a bolt, a rivet or the boot has to be mended
	FixPlace   Fix = "place"   // it has to be found
	FixFamily  Fix = "family"  // the holders are of another family than the first pair's
	FixPitch   Fix = "pitch"   // the holders are pitched otherwise
	FixProfile Fix = "profile" // the steel has another profile
	FixHollow  Fix = "hollow"  // the steel has another hollow
	FixHeight  Fix = "height"  // the steel is lower or higher than the first pair's
	FixMeasure Fix = "measure" // nobody knows how high it is
	FixGrind   Fix = "grind"   // it was not ground since it was last skated
	FixLook    Fix = "look"    // nobody looked at bolts and rivets
	FixTry     Fix = "try"     // its player has not tried it
	FixFirst   Fix = "first"   // his first pair has to be mended: he skates on this one
)

// Fixes lists the fixes whose minutes a club can set.
func Fixes() []Fix {
	return []Fix{
		FixHolder, FixSteel, FixDamage, FixPlace, FixFamily, FixPitch, FixProfile, FixHollow, FixHeight,
		FixMeasure, FixGrind, FixLook, FixTry, FixFirst,
	}
}

// Minutes is how long a fix takes: what the club said, else common practice, no source.
func (r Rules) Minutes(fix Fix) int {
	if minutes, ok := r.set.Takes(string(fix)); ok {
		return minutes
	}
	switch fix {
	case FixHolder, FixFirst, FixPitch:
		return 10
	case FixFamily:
		return 20
	case FixProfile:
		return 15
	case FixHollow:
		return 8
	case FixSteel, FixHeight, FixDamage, FixTry:
		return 5
	case FixGrind:
		return 4
	case FixLook, FixPlace:
		return 3
	}
	return 2
}
