package travel

import (
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
)

// Set is what is known of a set that lies ready for a player.
type Set struct {
	Number inventory.Number
	Letter string
	State  State
	Causes []Cause
	Place  inventory.Place
	Ground Ground
	Felt   inventory.Both[geometry.Millimetre] // higher than what is on the first pair
}

// ReadySets tells of the sets of a player that are on nothing and not done with.
func ReadySets(v inventory.View, player *inventory.Player, at time.Time) []Set {
	first, err := inventory.PairInRole(v, player, inventory.RoleFirst, at)
	if err != nil {
		first = nil
	}
	var sets []Set
	done := map[inventory.Number]bool{}
	for _, set := range player.Done.Until(at) {
		done[set.Value] = true
	}
	for _, lettered := range player.Sets {
		if done[lettered.Set] {
			continue
		}
		set, err := inventory.FindSet(v, lettered.Set)
		if err != nil || set.StateAt(at) != inventory.Ready {
			continue
		}
		sets = append(sets, lookAtSet(v, player, set, first, at))
	}
	return sets
}

// lookAtSet tells whether a set is fit to be put on.
func lookAtSet(v inventory.View, player *inventory.Player, set *inventory.Set, on *inventory.Pair, at time.Time) Set {
	c := causes{rules: RulesOf(v, player.Number, at)}
	report := Set{Number: set.Number, Letter: set.Letter, State: Ready, Place: set.Place(at)}
	for _, n := range []inventory.Number{set.Number, set.Left, set.Right} {
		marks := inventory.MarksOf(v, n)
		for _, damage := range marks.OpenDamages(at) {
			c.add(FixSteel, n, "steeltally scrap "+n.Short(), "DO NOT SKATE: %s, %s", n.Short(), damage.Where())
		}
		if marks.ScrappedAt(at) {
			c.add(FixSteel, n, "steeltally set add", "%s was scrapped", n.Short())
		}
		if custody := marks.CustodyAt(at); !custody.Ours() {
			report.State = Missing
			report.Causes = []Cause{{What: custody.String(), Hint: "steeltally custody back " + set.Number.Short(), About: n}}
			return report
		}
	}
	report.Ground = compareSteel(&c, player, set, at)
	if report.Ground.Never {
		c.add(FixGrind, set.Number, "steeltally grind "+set.Number.Short(), "never ground")
	}
	report.Felt = feltAgainst(v, set, on, at)
	if report.Causes = c.sorted(); len(report.Causes) > 0 {
		report.State = Fixable
	}
	return report
}

// feltAgainst is how much higher a set's runners are than those on a pair.
func feltAgainst(v inventory.View, set *inventory.Set, on *inventory.Pair, at time.Time) inventory.Both[geometry.Millimetre] {
	var felt inventory.Both[geometry.Millimetre]
	if on == nil {
		return felt
	}
	for _, side := range inventory.Sides() {
		here, there := heightOf(v, set.Runner(side), at).Height, heightOf(v, on.SeatAt(side, at).Runner, at).Height
		if here != nil && there != nil {
			difference := *here - *there
			felt.Put(side, &difference)
		}
	}
	return felt
}
