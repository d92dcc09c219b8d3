package desk

import (
	"strconv"
	"strings"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// Bench is what the person at the jig has to see of a player, to be drawn large.
type Bench struct {
	Player    inventory.Number
	Sweater   int
	Name      string
	Position  string
	Pair      inventory.Number
	Role      inventory.Role // of the pair
	Set       string         // the letter of the set that is on; empty: none is
	Hollow    string
	Profile   string
	Pitch     string
	Passes    string // the usual ones
	LastGrind string
	Heights   [2]BenchHeight // left, right
	Change    *geometry.Millimetre
	Wrong     []string // what nobody may skate on comes first
	Ready     []SetLine
}

// BenchHeight is the latest height of a runner that is on.
type BenchHeight struct {
	Side   inventory.Side
	Runner inventory.Number     // zero: none is known
	Height *geometry.Millimetre // nil: never measured
	Due    bool                 // it has reached the change height
}

// Bench tells what is on a player's pair, how it is ground, and what is wrong with it.
func (d *Desk) Bench(target Target) (Bench, error) {
	var bench Bench
	asides := d.unsafeAsides()
	err := d.ask(func(v inventory.View, at time.Time) error {
		defer func() {
			if said := asides.about(v, at, target.Player).Say(); said != "" {
				bench.Wrong = append([]string{said}, bench.Wrong...)
			}
		}()
		player, err := inventory.PlayerOf(v, target.Player)
		if err != nil {
			return err
		}
		specs := player.SpecsAt(at)
		bench = Bench{
			Player: player.Number, Sweater: player.Sweater(at), Name: player.Name, Position: player.Position,
			Hollow: "not told", Profile: "not told", Pitch: "not told", Passes: "not told", Change: specs.ChangeHeight,
		}
		bench.specs(specs)
		bench.Ready = readySets(v, player, at)
		pair, err := pairMeant(v, target, at)
		if err != nil {
			bench.Wrong = []string{err.Error()}
			return nil
		}
		bench.Pair, bench.Role = pair.Number, pair.Role(at)
		set, err := inventory.FindSet(v, pair.SetAt(at))
		if err != nil {
			bench.Wrong = []string{"no set is on"}
			return nil
		}
		bench.Set, bench.LastGrind = set.Letter, d.lastGrind(v, set, at)
		bench.Heights = heightsOn(v, set, specs, at)
		bench.Wrong = d.warnings(v, set, pair, at)
		return nil
	})
	return bench, err
}

func (b *Bench) specs(specs inventory.Specs) {
	if specs.Hollow != nil {
		b.Hollow = specs.Hollow.String()
	}
	if len(specs.Profile) > 0 {
		b.Profile = specs.Profile.String()
	}
	if specs.Pitch != nil {
		b.Pitch = strings.TrimPrefix(inventory.SayPitch(*specs.Pitch), "pitch ")
	}
	if specs.Passes != nil {
		b.Passes = strconv.Itoa(*specs.Passes)
	}
}

// readySets are the sets that could go on, the latest first.
func readySets(v inventory.View, player *inventory.Player, at time.Time) []SetLine {
	var ready []SetLine
	for _, lettered := range standing.Kept(player, at) {
		set, err := inventory.FindSet(v, lettered.Set)
		if err != nil {
			continue
		}
		if state := standing.StateOf(v, set.Number, at); state == inventory.Ready {
			ready = append(ready, setLine(v, set, at))
		}
	}
	return ready
}

// heightsOn are the latest heights of a set's runners.
func heightsOn(v inventory.View, set *inventory.Set, specs inventory.Specs, at time.Time) [2]BenchHeight {
	var heights [2]BenchHeight
	for i, side := range []inventory.Side{inventory.Left, inventory.Right} {
		heights[i].Side = side
		runner, err := inventory.FindRunner(v, set.Runner(side))
		if err != nil {
			continue
		}
		heights[i].Runner = set.Runner(side)
		wear := runner.WearAt(at)
		if heights[i].Height = wear.HeightLast; wear.HeightLast == nil {
			heights[i].Height = wear.HeightNew
		}
		heights[i].Due = heights[i].Height != nil && specs.ChangeHeight != nil && *heights[i].Height <= *specs.ChangeHeight
	}
	return heights
}
