package demo

import (
	"math"
	"slices"
	"testing"
	"time"

	"gonum.org/v1/gonum/stat"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// untold is what the simulator knows and the book does not.
type untold struct {
	Open  numbers // pieces with a flag that waits for a person
	Wrong numbers // players of whom the record is wrong and nobody has noticed yet
}

func (c *club) truth() (t untold) {
	for _, p := range c.everybody {
		switch {
		case p.story == nil:
		case len(p.story.flagged) > 0:
			t.Open = append(t.Open, p.story.flagged...)
		default:
			t.Wrong = append(t.Wrong, p.number)
		}
	}
	for _, e := range c.doubts {
		for _, height := range e.Body.(*inventory.Measured).Heights {
			if height.AsRead {
				t.Open = append(t.Open, height.Runner)
			}
		}
	}
	slices.Sort(t.Open)
	return t
}

// TestSteelNeverGrows looks at every runner every day.
func TestSteelNeverGrows(t *testing.T) {
	c, err := newClub(Options{Seed: 1, End: endDay()})
	if err != nil {
		t.Fatal(err)
	}
	m := newMemory()
	c.record = m.record
	c.enter(deeds.FoundClub{Name: clubName, Zone: zoneName, Station: station})
	was := map[inventory.Number]geometry.Millimetre{}
	looks := 0
	c.announce = func() {
		for n, r := range c.runners {
			if height, known := was[n]; known && r.steel.Height > height {
				t.Errorf("%s: %s grew from %s to %s", c.now().Format(time.DateOnly), n.Short(), height, r.steel.Height)
			}
			if r.used {
				was[n] = r.steel.Height
				looks++
			}
		}
	}
	if err := c.playAll(); err != nil {
		t.Fatal(err)
	}
	if looks < 100_000 {
		t.Errorf("only %d looks", looks)
	}
}

// TestRecordHasThePassesThatTheSteelGot: after all slips and corrections the record's
// passes are the true ones less those that nobody counted, where nothing waits to be
// noticed. What may differ is a grind that was entered late while another set was on than
// was thought.
func TestRecordHasThePassesThatTheSteelGot(t *testing.T) {
	c, m := usual(t)
	wrong := c.truth().Wrong
	used, differ := 0, 0
	for n, r := range c.runners {
		if !r.used || slices.Contains(wrong, r.player) {
			continue
		}
		used++
		recorded := m.states[inventory.RefOf(n)].(*inventory.Runner).WearAt(c.end).Passes
		if recorded != r.steel.Passes-r.unlogged {
			differ++
			t.Logf("%s: %d in the record, %d true, %d of them not counted", n.Short(), recorded, r.steel.Passes, r.unlogged)
		}
	}
	if used < 700 || differ > used/100 {
		t.Errorf("%d of %d runners have other passes in the record", differ, used)
	}
}

// TestHeightsAreReadAsTheCaliperReads: the spread of what was read about the truth at
// removal is the caliper's, but for slips.
func TestHeightsAreReadAsTheCaliperReads(t *testing.T) {
	c, m := usual(t)
	var errors []float64
	for n, r := range c.runners {
		wear := m.states[inventory.RefOf(n)].(*inventory.Runner).WearAt(c.end)
		if wear.HeightFinal != nil && wear.LastReference == inventory.Loose && r.player != 0 {
			errors = append(errors, math.Abs(float64(*wear.HeightFinal-r.steel.Height)))
		}
	}
	if len(errors) < 300 {
		t.Fatalf("only %d last heights", len(errors))
	}
	slices.Sort(errors)
	// The median of |x| of a normal x is .6745 of its spread.
	median := stat.Quantile(.5, stat.Empirical, errors, nil)
	caliper := math.Hypot(c.skaters.Caliper.Spread, c.skaters.Caliper.Step/math.Sqrt(12))
	if median < .5*.6745*caliper || median > 1.5*.6745*caliper {
		t.Errorf("half of the last heights are within %.3f mm of the truth, the caliper's spread is %.3f", median, caliper)
	}
	slips := 0
	for _, e := range errors {
		if e > .35 {
			slips++
		}
	}
	if slips == 0 || slips > len(errors)/20 {
		t.Errorf("%d of %d last heights are slips", slips, len(errors))
	}
}

// TestUseIsCredible holds what the players use against common practice (no source):
// 6–12 sets a season, heavy users 16 and more; 4–6 passes a grind; 0.015–0.025 mm a
// pass; heavy users change about every two weeks.
func TestUseIsCredible(t *testing.T) {
	var use use
	for seed := range uint64(3) {
		c, m := played(t, Options{Seed: seed, End: endDay()})
		use.add(c, m)
	}
	t.Logf("sets a season: skaters' quartiles %.1f %.1f %.1f, most %.1f; goalkeepers %.1f",
		quantile(use.sets, .25), quantile(use.sets, .5), quantile(use.sets, .75), quantile(use.sets, 1), stat.Mean(use.keepers, nil))
	days := func(share float64) float64 { return 7 * allWeeks / quantile(use.sets, share) }
	t.Logf("days of the season for a set: median %.0f, the heaviest user %.0f; grinds a set %.0f, passes a grind %.2f, loss a pass %.4f mm",
		days(.5), days(1), stat.Mean(use.grinds, nil), stat.Mean(use.passes, nil), stat.Mean(use.loss, nil))
	within := func(what string, got, low, high float64) {
		if got < low || got > high {
			t.Errorf("%s is %.3f, %.3f to %.3f is credible", what, got, low, high)
		}
	}
	within("the median skater's sets a season", quantile(use.sets, .5), 6, 12)
	within("a heavy user's sets a season", quantile(use.sets, 1), 14, 26)
	within("a goalkeeper's sets a season", stat.Mean(use.keepers, nil), 1, 5)
	within("passes a grind", stat.Mean(use.passes, nil), 4, 6)
	within("grinds a set", stat.Mean(use.grinds, nil), 45, 85)
	within("mm a pass", stat.Mean(use.loss, nil), .015, .021)
	within("the heaviest user's days for a set", days(1), 10, 19)
}

type use struct {
	sets, keepers []float64 // done with, a season of each player
	grinds, loss  []float64 // of a set, of a pass
	passes        []float64 // a grind, in the mean of each club
}

// add looks at the players who were there all the time, and at sets that were new
// when they went on and came off low.
func (u *use) add(c *club, m *memory) {
	u.passes = append(u.passes, passesAGrind(m))
	perPlayer := map[inventory.Number]float64{}
	for n, r := range c.runners {
		state := m.states[inventory.RefOf(n)].(*inventory.Runner)
		stints := state.Stints(c.end)
		if state.StateAt(c.end) != inventory.Removed || len(stints) == 0 {
			continue
		}
		perPlayer[r.player] += .5
		wear := state.WearAt(c.end)
		if last := stints[len(stints)-1]; last.Reason == "low" && wear.UnknownWorks == 0 {
			u.grinds = append(u.grinds, float64(wear.Grinds))
			u.loss = append(u.loss, r.steel.LossPerPass)
		}
	}
	for _, p := range c.everybody {
		stayed := !p.gone && len(p.name) > 0 && m.states[inventory.RefOf(p.number)].(*inventory.Player).Sweaters[0].When.Start.Before(c.opening.AddDate(0, 0, 2))
		switch {
		case !stayed || p.callUp:
		case p.goalkeeper():
			u.keepers = append(u.keepers, perPlayer[p.number]/usualSeasons)
		default:
			u.sets = append(u.sets, perPlayer[p.number]/usualSeasons)
		}
	}
	slices.Sort(u.sets)
}

func passesAGrind(m *memory) float64 {
	passes, grinds := 0, 0
	for _, e := range m.events {
		b, ok := e.Body.(*inventory.Ground)
		if ok && b.Work == "grind" && !b.More && b.Left != nil && b.Left.Passes != nil {
			passes += *b.Left.Passes
			grinds++
		}
	}
	return float64(passes) / float64(grinds)
}

func quantile(sorted []float64, p float64) float64 {
	return stat.Quantile(p, stat.Empirical, sorted, nil)
}
