package travel

import (
	"cmp"
	"fmt"
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

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
