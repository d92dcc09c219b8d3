package sparepair

import (
	"cmp"
	"fmt"
	"slices"
	"time"

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

// begin finds the pair that a player has in a role; it is missing where there is none,
// where it was scrapped, and where somebody else has it.
func begin(v *standing.Now, player *inventory.Player, role inventory.Role) (*check, Pair) {
	pair, err := inventory.PairInRole(v, player, role, v.At)
	if err != nil || pair.ScrappedAt(v.At) {
		return nil, Pair{Role: role, State: Missing, Causes: []Cause{{
			What: "no " + role.Pair(), Hint: "steeltally pair add " + inventory.Typed(v, player, v.At) + " --role " + string(role),
		}}}
	}
	c := &check{causes{rules: RulesOf(v, player.Number, v.At)}, v, player, pair}
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
	hint := "steeltally in " + inventory.Typed(c.v, c.player, c.v.At) + " SET --pair " + string(c.pair.Role(c.v.At))
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

// Player is one player's steel for the road.
type Player struct {
	Number     inventory.Number
	Sweater    int // 0: none
	Name       string
	Goalkeeper bool
	CalledUp   bool
	First      Pair
	Spare      Pair
	Sets       []Set
	Unworked   *inventory.Unworked // why this can't be told; then nothing counts as ready
}

// State is what counts for the road: the spare pair's.
func (p *Player) State() State { return p.Spare.State }

// Of tells of one player's first pair, spare pair and ready sets.
func Of(v *standing.Now, player *inventory.Player) Player {
	var told Player
	if err := inventory.Guard(func() error { told = of(v, player); return nil }); err != nil {
		return unworked(player, v.At, err)
	}
	return told
}

// unworked tells of a player of whom nothing can be told. His spare pair is not to be
// relied on: it counts as missing.
func unworked(player *inventory.Player, at time.Time, err error) Player {
	failed := player.Unworked(at, err)
	cannotTell := Pair{State: Missing, Causes: []Cause{{What: failed.Say(), Hint: failed.Hint()}}}
	return Player{Number: player.Number, Sweater: failed.Sweater, Name: player.Name, First: cannotTell, Spare: cannotTell, Unworked: &failed}
}

func of(v *standing.Now, player *inventory.Player) Player {
	_, called := player.CalledUpAt(v.At)
	return Player{
		Number: player.Number, Sweater: player.Sweater(v.At), Name: player.Name, Goalkeeper: player.Goalkeeper(),
		CalledUp: called, First: FirstPair(v, player), Spare: SparePair(v, player), Sets: ReadySets(v, player),
	}
}

// Squad tells of all players of the club in sweater order. Who has left is history.
func Squad(v *standing.Now) []Player {
	var squad []Player
	for _, member := range inventory.RosterOf(v).Members {
		squad = AddTo(squad, v, member.Player)
	}
	BySweater(squad)
	return squad
}

// AddTo adds what is told of a player of the club to that of others.
func AddTo(squad []Player, v *standing.Now, n inventory.Number) []Player {
	player, err := inventory.PlayerOf(v, n)
	if err != nil || player.Gone || player.Name == "" {
		return squad
	}
	return append(squad, Of(v, player))
}

// BySweater sorts players by sweater.
func BySweater(squad []Player) {
	slices.SortStableFunc(squad, func(a, b Player) int { return cmp.Compare(a.Sweater, b.Sweater) })
}

// WorstFirst sorts players by what is missing, then by how long it takes to mend.
func WorstFirst(squad []Player) {
	rank := func(p Player) int { return slices.Index([]State{Missing, Fixable, Declined, Ready}, p.State()) }
	slices.SortStableFunc(squad, func(a, b Player) int {
		return cmp.Or(cmp.Compare(rank(a), rank(b)), -cmp.Compare(a.Spare.Minutes(), b.Spare.Minutes()))
	})
}

// FirstPair tells what is wrong with the pair that a player skates on every day.
func FirstPair(v *standing.Now, player *inventory.Player) Pair {
	c, report := begin(v, player, inventory.RoleFirst)
	if report.State == Missing {
		return report
	}
	c.damages()
	if set := c.fitted(); set != nil {
		report.Set = set.Letter
		report.Ground = compareSteel(&c.causes, player, set, v.At)
		c.ends(&report)
	}
	return c.done(report)
}

// ends adds steel that is at its change height.
func (c *check) ends(report *Pair) {
	for _, side := range inventory.Sides() {
		n := c.pair.SeatAt(side, c.v.At).Runner
		height := c.v.HeightOf(n)
		report.Heights.Put(side, &height)
		if change := report.Specs.ChangeHeight; change != nil && height.Now != nil && *height.Now <= *change {
			c.add(FixHeight, n, fmt.Sprintf("low: %s %s, to be changed at %s", side, height.Now, change), c.changeHint(inventory.ReasonLow))
		}
	}
}
