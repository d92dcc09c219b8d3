package travel

import (
	"fmt"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// Pair is what is known of one pair's readiness.
type Pair struct {
	Number inventory.Number
	Role   inventory.Role
	State  State
	Causes []Cause // the first one first
	Place  inventory.Place
	Compared
}

// Compared is what a pair was compared by.
type Compared struct {
	Set      string // letter of what is on
	Specs    inventory.Specs
	Ground   Ground
	Heights  inventory.Both[standing.Height]
	Against  inventory.Both[standing.Height] // the first pair's
	Pitch    *geometry.Millimetre            // nil: nobody said
	Tried    inventory.When                  // unknown: never
	Looked   inventory.When                  // at both holders; unknown: never
	Skated   inventory.When                  // unknown: never, as far as is known
	Declined bool
}

// Cause is what to mend first; the zero Cause where nothing is.
func (p *Pair) Cause() Cause {
	if len(p.Causes) == 0 {
		return Cause{}
	}
	return p.Causes[0]
}

// Minutes is what all causes take together.
func (p *Pair) Minutes() int {
	minutes := 0
	for _, cause := range p.Causes {
		minutes += cause.Minutes
	}
	return minutes
}

// check is one pair being looked at.
type check struct {
	causes
	v      *standing.Now
	player *inventory.Player
	pair   *inventory.Pair
}

func newCheck(v *standing.Now, player *inventory.Player, pair *inventory.Pair) *check {
	return &check{causes{rules: RulesOf(v, player.Number, v.At)}, v, player, pair}
}

// begin finds the pair that a player has in a role; it is missing where there is none,
// where it was scrapped, and where somebody else has it.
func begin(v *standing.Now, player *inventory.Player, role inventory.Role) (*check, Pair) {
	pair, err := inventory.PairInRole(v, player, role, v.At)
	if err != nil || pair.ScrappedAt(v.At) {
		return nil, Pair{Role: role, State: Missing, Causes: []Cause{{
			What: "no " + role.Pair(), Hint: "steeltally pair add " + typed(v, player, v.At) + " --role " + string(role),
		}}}
	}
	c := newCheck(v, player, pair)
	report := c.report()
	if custody, away := c.elsewhere(); away {
		report.State = Missing
		report.Causes = []Cause{{What: custody.String(), Hint: "steeltally custody back " + pair.Number.Short(), About: pair.Number}}
	}
	return c, report
}

// report begins what is told of the pair.
func (c *check) report() Pair {
	return Pair{
		Number: c.pair.Number, Role: c.pair.Role(c.v.At), State: Ready, Place: standing.PlaceOf(c.v, c.pair.Number, c.v.At),
		Compared: Compared{Specs: c.player.SpecsAt(c.v.At)},
	}
}

// damages adds what is broken or may be, anywhere in the pair.
func (c *check) damages() {
	for _, n := range c.pieces() {
		for _, damage := range inventory.MarksOf(c.v, n).OpenDamages(c.v.At) {
			c.damage(n, damage)
		}
	}
}

// pieces lists the pair with everything on it.
func (c *check) pieces() []inventory.Number { return standing.Parts(c.v, c.pair.Number, c.v.At) }

func (c *check) damage(n inventory.Number, damage inventory.Damaged) {
	what, hint := n.Short()+", "+damage.Where(), "steeltally inspect "+n.Short()
	switch {
	case damage.Unsafe && n.Kind() == inventory.KindHolder:
		c.add(FixHolder, n, fmt.Sprintf("DO NOT SKATE: %s", what), "steeltally rivet off "+n.Short())
	case damage.Unsafe && n.Kind() == inventory.KindRunner:
		c.add(FixSteel, n, fmt.Sprintf("DO NOT SKATE: %s", what), "steeltally out "+n.Short())
	case damage.Unsafe:
		c.add(FixHolder, n, fmt.Sprintf("DO NOT SKATE: %s", what), "steeltally history "+n.Short())
	default:
		c.add(FixDamage, n, fmt.Sprintf("open: %s", what), hint)
	}
}

// elsewhere is who has the pair or a piece of it, where that is not the club.
func (c *check) elsewhere() (inventory.Custody, bool) {
	for _, n := range c.pieces() {
		if custody := inventory.MarksOf(c.v, n).CustodyAt(c.v.At); !custody.Ours() {
			return custody, true
		}
	}
	return inventory.Custody{}, false
}

// fitted adds holders and steel that are not there, and gives the set that is on.
func (c *check) fitted() *inventory.Set {
	for _, side := range inventory.Sides() {
		if c.pair.HolderAt(side, c.v.At) == 0 {
			c.add(FixHolder, 0, fmt.Sprintf("no %s holder", side), "steeltally rivet on HOLDER --pair "+c.pair.Number.Short())
		}
	}
	left, right := c.pair.SeatAt(inventory.Left, c.v.At), c.pair.SeatAt(inventory.Right, c.v.At)
	hint := "steeltally in " + typed(c.v, c.player, c.v.At) + " SET --pair " + string(c.pair.Role(c.v.At))
	switch {
	case left.Runner == 0 && right.Runner == 0:
		c.add(FixSteel, 0, "no steel in it", hint)
	case left.Runner == 0:
		c.add(FixSteel, 0, "no steel in the left holder", hint)
	case right.Runner == 0:
		c.add(FixSteel, 0, "no steel in the right holder", hint)
	case left.Set != right.Set:
		c.add(FixSteel, 0, "left and right are of different sets", hint)
	default:
		set, err := inventory.FindSet(c.v, left.Set)
		if err == nil {
			return set
		}
		c.add(FixSteel, 0, "its runners are in no set", hint)
	}
	return nil
}

// done puts the causes in order and says what comes of them.
func (c *check) done(p Pair) Pair {
	p.Causes = c.sorted()
	switch {
	case len(p.Causes) > 0:
		p.State = Fixable
	case p.Declined:
		p.State = Declined
	}
	return p
}
