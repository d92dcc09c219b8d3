package sparepair

import (
	"fmt"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// Set is what is known of a set that lies ready for a player.
type Set struct {
	Number inventory.Number
	Letter string
	State  State
	Causes []Cause
	Place  inventory.Place
	Ground Ground
	Felt   inventory.Both[geometry.Millimetre] // higher than what is on the pair that he skates on
}

// ReadySets tells of the sets of a player that are on nothing and not done with.
func ReadySets(v *standing.Now, player *inventory.Player) []Set {
	on, _ := standing.SkatesOn(v, player, v.At)
	var sets []Set
	for _, set := range standing.ReadySets(v, player, v.At) {
		sets = append(sets, lookAtSet(v, player, set, on.Pair))
	}
	return sets
}

// lookAtSet tells whether a set is fit to be put on.
func lookAtSet(v *standing.Now, player *inventory.Player, set *inventory.Set, on *inventory.Pair) Set {
	c := causes{rules: RulesOf(v, player.Number, v.At)}
	report := Set{Number: set.Number, Letter: set.Letter, State: Ready, Place: standing.PlaceOf(v, set.Number, v.At)}
	for _, n := range []inventory.Number{set.Number, set.Left, set.Right} {
		marks := inventory.MarksOf(v, n)
		for _, damage := range marks.OpenDamages(v.At) {
			if damage.Unsafe {
				c.add(FixSteel, n, fmt.Sprintf("DO NOT SKATE: %s, %s", n.Short(), damage.Where()), "steeltally scrap "+n.Short())
			} else {
				c.add(FixDamage, n, fmt.Sprintf("open: %s, %s", n.Short(), damage.Where()), "steeltally inspect "+n.Short())
			}
		}
		if marks.ScrappedAt(v.At) {
			c.add(FixSteel, n, n.Short()+" was scrapped", "steeltally set add")
		}
		if custody := marks.CustodyAt(v.At); !custody.Ours() {
			report.State = Missing
			report.Causes = []Cause{{What: custody.String(), Hint: "steeltally custody back " + set.Number.Short(), About: n}}
			return report
		}
	}
	report.Ground = compareSteel(&c, player, set, v.At)
	if report.Ground.Never {
		c.add(FixGrind, set.Number, "never ground", "steeltally grind "+set.Number.Short())
	}
	report.Felt = FeltAgainst(v, set, on)
	if report.Causes = c.sorted(); len(report.Causes) > 0 {
		report.State = Fixable
	}
	return report
}

// FeltAgainst is how much higher a set's runners are than those on a pair.
func FeltAgainst(v *standing.Now, set *inventory.Set, on *inventory.Pair) inventory.Both[geometry.Millimetre] {
	var felt inventory.Both[geometry.Millimetre]
	if on == nil {
		return felt
	}
	for _, side := range inventory.Sides() {
		here, there := v.HeightOf(set.Runner(side)).Now, v.HeightOf(on.SeatAt(side, v.At).Runner).Now
		if here != nil && there != nil {
			difference := *here - *there
			felt.Put(side, &difference)
		}
	}
	return felt
}
