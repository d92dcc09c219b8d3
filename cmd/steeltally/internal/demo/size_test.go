package demo

import (
	"fmt"
	"testing"
	"time"
)

// usual is the book that is made unless told otherwise, in memory.
func usual(t testing.TB) (*club, *memory) { return played(t, Options{Seed: 1, End: endDay()}) }

func TestBookIsAsBigAsSaid(t *testing.T) {
	for _, end := range []string{"2026-11-25", "2027-01-03", "2026-04-02", "2026-07-14", "2026-09-30"} {
		for seed := range uint64(2) {
			t.Run(fmt.Sprint(end, " seed ", seed), func(t *testing.T) {
				t.Parallel()
				day, err := time.Parse(time.DateOnly, end)
				if err != nil {
					t.Fatal(err)
				}
				c, m := played(t, Options{Seed: seed + 1, End: day})
				runners, removed := countRunners(m, c.end)
				t.Logf("begins %s: %d events, %d runners, %d removed", c.opening.Format(time.DateOnly), c.entered, runners, removed)
				if c.entered < 34_000 || c.entered > 46_000 {
					t.Errorf("%d events, about 40,000 wanted", c.entered)
				}
				if runners < 900 || runners > 1300 || removed < 500 || removed > 900 {
					t.Errorf("%d runners, %d removed; about 1,000 wanted", runners, removed)
				}
			})
		}
	}
}

func TestBiggerBooksHaveMoreSeasonsNotMoreGrinds(t *testing.T) {
	one, _ := usual(t)
	two, m := played(t, Options{Seed: 1, End: endDay(), Events: 120_000})
	if two.entered < 105_000 || two.entered > 135_000 {
		t.Errorf("%d events, about 120,000 wanted", two.entered)
	}
	if gone := two.opening.Sub(one.opening) / (24 * time.Hour); gone > -900 {
		t.Errorf("three times the events begin only %d days earlier", -gone)
	}
	if players := len(two.everybody); players < len(one.everybody)+30 {
		t.Errorf("%d players in 4.7 seasons, %d in 1.5", players, len(one.everybody))
	}
	was, is := grindsADay(one), grindsADay(two)
	if is < .9*was || is > 1.1*was {
		t.Errorf("%.1f passes a player and day in the bigger book, %.1f in the usual", is, was)
	}
	if runners, _ := countRunners(m, two.end); runners < 2500 {
		t.Errorf("%d runners in a book of three times the seasons", runners)
	}
}

// grindsADay is about how many passes a player of the roster got on a day.
func grindsADay(c *club) float64 {
	passes := 0
	for _, r := range c.runners {
		passes += r.steel.Passes
	}
	return float64(passes) / c.end.Sub(c.opening).Hours() * 24 / (goalkeepers + defenders + forwards)
}
