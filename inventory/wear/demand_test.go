package wear_test

import (
	"cmp"
	"flag"
	"maps"
	"slices"
	"testing"
)

var full = flag.Bool("full", false, "simulate 1,500 runners a cell and print the table")

// demandHistories are the amounts of earlier steel that the demands name: a
// player's earlier runners, two to a pair.
var demandHistories = []history{
	{name: noEarlier}, {name: "2 earlier runners", pairs: 1},
	{name: tenEarlier, pairs: 5}, {name: fortyEarlier, pairs: 20},
}

const (
	noEarlier    = "no earlier runner"
	tenEarlier   = "10 earlier runners"
	fortyEarlier = "40 earlier runners"
)

// clubs is how many are simulated of a kind: 1,500 runners a cell, or 60.
func clubs() int {
	if *full {
		return 75
	}
	return 3
}

// allowance widens a bound by what chance may do in the quick run. The full run
// has none.
func allowance(quick float64) float64 {
	if *full {
		return 0
	}
	return quick
}

// report prints in the full run.
func report(t *testing.T, format string, values ...any) {
	t.Helper()
	if *full {
		t.Logf(format, values...)
	}
}

// between fails unless a share lies within bounds, widened in the quick run.
func between(t *testing.T, what string, share, low, high, quick float64) {
	t.Helper()
	if !(share >= low-allowance(quick) && share <= high+allowance(quick)) {
		t.Errorf("%s: %.3f, want %.2f to %.2f", what, share, low, high)
	}
}

// atMost fails if a ratio of errors is above its limit, by a share more in the
// quick run.
func atMost(t *testing.T, what string, ratio, limit, quick float64) {
	t.Helper()
	if !(ratio <= limit*(1+allowance(quick))) {
		t.Errorf("%s: %.3f, want at most %.2f", what, ratio, limit)
	}
}

// Over the stated truth the forecast's 80 % interval holds, and its error is as
// far below the rivals' as promised. The full run prints the table; the quick
// one is of the same kind, too small to judge single cells closely.
func TestForecastMeetsItsDemands(t *testing.T) {
	sim := simulation{histories: demandHistories, heights: []int{1, 2, 3, 5}, ages: []float64{.25, .5, .75}, clubs: clubs(), seed: 1}
	cells := sim.run(t)
	if len(cells) != 48 {
		t.Fatalf("%d cells, want 48", len(cells))
	}
	for _, c := range inOrder(cells) {
		report(t, "%v %s", c, cells[c].row())
	}
	checkCoverage(t, cells)
	checkRivals(t, cells)
	checkOracle(t, cells)
}

func inOrder(cells map[cell]*tally) []cell {
	return slices.SortedFunc(maps.Keys(cells), func(a, b cell) int {
		return cmp.Or(cmp.Compare(a.history, b.history), cmp.Compare(a.age, b.age), cmp.Compare(a.heights, b.heights))
	})
}

// pooled joins the cells that a filter takes.
func pooled(cells map[cell]*tally, take func(cell) bool) *tally {
	sum := newTally()
	for _, c := range inOrder(cells) {
		if take(c) {
			sum.merge(cells[c])
		}
	}
	return sum
}

func everything(cell) bool { return true }

func checkCoverage(t *testing.T, cells map[cell]*tally) {
	t.Helper()
	all := pooled(cells, everything)
	report(t, "all cells: %s", all.row())
	between(t, "80 % intervals held", all.coverage(), .78, .82, .03)
	between(t, "80 % intervals of sets held", all.pairCoverage(), .77, .83, .03)
	for _, c := range inOrder(cells) {
		between(t, c.String()+" held", cells[c].coverage(), .75, .87, .2)
	}
}

// checkRivals compares errors with three heights, over all histories: with no
// history the oracle itself errs about .80 of what least squares does at half-life.
func checkRivals(t *testing.T, cells map[cell]*tally) {
	t.Helper()
	for _, demand := range []struct{ age, naive, slope float64 }{{.25, .40, .65}, {.5, .62, .85}} {
		u := pooled(cells, func(c cell) bool { return c.heights == 3 && c.age == demand.age })
		report(t, "three heights at %.2f: %s", demand.age, u.row())
		atMost(t, "error over naive", u.against(byNaive), demand.naive, .15)
		atMost(t, "error over least squares", u.against(bySlope), demand.slope, .15)
	}
}

func checkOracle(t *testing.T, cells map[cell]*tally) {
	t.Helper()
	most := map[string]float64{tenEarlier: 1.07, fortyEarlier: 1.07, noEarlier: 1.15}
	for _, c := range inOrder(cells) {
		limit, named := most[c.history]
		if !named || c.history == noEarlier && c.age < .5 {
			continue
		}
		atMost(t, c.String()+", error over the oracle's", cells[c].against(oracle), limit, .2)
	}
}

// Two of a hundred readings being bad costs little, and the intervals still hold.
func TestForecastWithstandsBadReadings(t *testing.T) {
	sim := simulation{histories: demandHistories[1:3], heights: []int{3, 5}, ages: []float64{.25, .5}, clubs: clubs(), seed: 2}
	clean := pooled(sim.run(t), everything)
	sim.bad = .02
	bad := pooled(sim.run(t), everything)
	ratio := bad.rmse(ours) / clean.rmse(ours)
	report(t, "clean: %s", clean.row())
	report(t, "2 %% bad readings: %s; error × clean %.3f", bad.row(), ratio)
	atMost(t, "error with 2 % bad readings over the clean one", ratio, 1.12, .15)
	between(t, "with 2 % bad readings held", bad.coverage(), .77, .87, .05)
}

// A young club, two earlier runners each and nothing more, keeps its intervals;
// so does one without any, where they are wide rather than narrow.
func TestForecastInYoungClubs(t *testing.T) {
	sim := simulation{
		histories: []history{{name: "young club", pairs: 1}, {name: "new club", alone: true}},
		heights:   []int{1, 2, 3, 5}, ages: []float64{.25, .5, .75}, clubs: clubs(), seed: 3,
	}
	if !*full {
		sim.heights, sim.ages = []int{1, 3}, []float64{.5}
	}
	cells := sim.run(t)
	for _, h := range sim.histories {
		u := pooled(cells, func(c cell) bool { return c.history == h.name })
		report(t, "%s: %s", h.name, u.row())
		between(t, h.name+" held", u.coverage(), .76, .92, .05)
	}
}
