package desk

import (
	"fmt"
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
	Moment    string         // why he skates on it, where it is not his first; else empty
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

// BenchHeight is how high a runner is that is on.
type BenchHeight struct {
	Side   inventory.Side
	Runner inventory.Number // zero: none is known
	Said   string           // "about 15.1 now; measured 16.62 on 23 Nov"
	Due    bool             // it has reached the change height
}

// Bench tells what is on a player's pair, how it is ground, and what is wrong with it.
func (d *Desk) Bench(target Target) (Bench, error) {
	var bench Bench
	asides := d.unsafeAsides()
	err := d.askNow(func(v *standing.Now) error {
		at := v.At
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
		bench.Pair, bench.Role, bench.Moment = pair.Number, pair.Role(at), d.sayMoment(v, player, pair)
		bench.Wrong = d.warnings(v, pair, at)
		set, err := inventory.FindSet(v, pair.SetAt(at))
		if err != nil {
			bench.Wrong = append(bench.Wrong, "no set is on")
			return nil
		}
		bench.Set, bench.LastGrind = set.Letter, d.lastGrind(v, set, at)
		bench.Heights = d.heightsOn(v, set, specs)
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
	for _, set := range standing.ReadySets(v, player, at) {
		if standing.Skateable(v, at, set.Number) {
			ready = append(ready, setLine(v, set, at))
		}
	}
	return ready
}

// sayMoment says why a player skates on another pair than his first; empty where he does not.
func (d *Desk) sayMoment(v *standing.Now, player *inventory.Player, pair *inventory.Pair) string {
	on, err := standing.SkatesOn(v, player, v.At)
	if err != nil || on.Moment == nil || on.Number != pair.Number {
		return ""
	}
	return fmt.Sprintf("on his %s pair for the moment, since %s: his first broke on the %s", pair.Role(v.At), on.Moment.Since.Say(d.zone), on.Moment.Side)
}

// heightsOn are the heights of a set's runners; of one that is on, those that are.
func (d *Desk) heightsOn(v *standing.Now, set *inventory.Set, specs inventory.Specs) [2]BenchHeight {
	var heights [2]BenchHeight
	on := standing.PairOf(v, set.Number, v.At)
	for i, side := range inventory.Sides() {
		heights[i].Side = side
		if _, err := inventory.FindRunner(v, set.Runner(side)); err != nil || standing.PairOf(v, set.Runner(side), v.At) != on {
			continue
		}
		height := v.HeightOf(set.Runner(side))
		heights[i].Runner, heights[i].Said = set.Runner(side), d.sayHeightNow(height)
		heights[i].Due = specs.ChangeHeight != nil && height.AtEnd(*specs.ChangeHeight)
	}
	return heights
}

// sayHeightNow says how high a runner is: what is expected now, and what was measured.
func (d *Desk) sayHeightNow(h standing.Height) string {
	if h.Last == nil && h.Now == nil {
		return "not known"
	}
	measured := "never measured"
	if h.Last != nil {
		measured = fmt.Sprintf("measured %.2f on %s", float64(h.Last.Height), h.Last.When.SayDay(d.zone))
	}
	switch {
	case h.Now == nil:
		return measured + ", " + h.CannotSay
	case h.Since == 0 && h.Last != nil:
		return measured
	case h.Low == nil:
		return fmt.Sprintf("%s, %s", h.Now, measured)
	}
	return fmt.Sprintf("about %.1f now; %s", float64(*h.Now), measured)
}
