package demo

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"steeltally/inventory"
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

// kinds counts the events by what happened, and by the words that say more.
func kinds(m *memory) map[string]int {
	counts := map[string]int{}
	for _, e := range m.events {
		counts[e.Body.Kind()]++
		for _, more := range detail(e) {
			counts[more]++
		}
	}
	return counts
}

func detail(e *inventory.Event) []string {
	late := e.Noted.Sub(e.Happened.Start) > 30*time.Minute
	switch b := e.Body.(type) {
	case *inventory.Ground:
		words := []string{"work " + b.Work}
		if b.Left != nil && b.Right != nil && b.Left.Passes == nil && b.Work == "grind" {
			words = append(words, "unknown passes")
		}
		if b.Left != nil && b.Right != nil && b.Left.Passes != nil && *b.Left.Passes != *b.Right.Passes && b.Work == "grind" {
			words = append(words, "uneven")
		}
		if b.More {
			words = append(words, "one more")
		}
		if late && e.Happened.Exact() {
			words = append(words, "entered late")
		}
		if !e.Happened.Exact() {
			words = append(words, "vague time")
		}
		return words
	case *inventory.TakenOut:
		return []string{"reason " + b.Reason}
	case *inventory.Damaged:
		return []string{"damage " + b.Piece.Kind().String() + " " + b.Mode}
	case *inventory.Measured:
		if slices.ContainsFunc(b.Heights, func(h inventory.Height) bool { return h.AsRead }) {
			return []string{"reference " + string(b.Reference), "kept as read"}
		}
		return []string{"reference " + string(b.Reference)}
	case *inventory.Riveted:
		if b.Off && b.Runner != 0 {
			return []string{"holder off with its runner"}
		}
	case *inventory.Session:
		return []string{fmt.Sprintf("session game %v away %v", b.Game, b.Away)}
	case *inventory.Correction:
		word, _, _ := strings.Cut(b.Words, ":")
		word, _, _ = strings.Cut(word, " since")
		return []string{"correction " + word}
	}
	return nil
}

func TestEverythingOccurs(t *testing.T) {
	_, m := usual(t)
	counts := kinds(m)
	for what, least := range map[string]int{
		"club": 1, "player": 60, "specs": 50, "model": 6, "stockin": 100, "pair": 80, "set": 400, "put": 1000,
		"rivet": 150, "in": 1000, "out": 1000, "grind": 20_000, "measure": 1000, "damage": 80, "inspect": 1000,
		"session": 400, "correction": 60, "refusal": 5, "found": 10, "container": 10,
		"tried": 100, "skated": 100, "trip": 20, "packed": 60, "loaded": 30, "roster": 5, "kit": 4, "rules": 1,
		"callup": 3, "custody": 15, "answer": 5, "scrap": 1, "emergency": 3, "emergency-done": 3, "emergency-closed": 1,
		"work grind": 18_000, "work hone": 1000, "work nick": 200, "work profile": 300, "work new-hollow": 20,
		"unknown passes": 60, "uneven": 200, "one more": 50, "entered late": 400, "vague time": 50,
		"reason low": 200, "reason rotate": 500, "reason broken": 3, "reason cracked": 1, "reason bent": 1,
		"reason chipped": 1, "reason trial": 3,
		"damage runner break": 3, "damage holder crack": 10, "damage holder loose-rivet": 20, "damage holder loose-bolt": 5,
		"reference loose": 400, "reference fitted": 800, "kept as read": 4, "holder off with its runner": 5,
		"session game true away true": 30, "session game true away false": 30, "session game false away false": 200,
		"correction scanned twice": 15, "correction ground twice on purpose": 1, "correction wrong player": 8,
		"correction wrong set": 8, "correction left and right were swapped": 1, "correction wrong set scanned": 1,
		"correction misread": 2, "correction the height is right": 1, "correction moved to Sunday": 1, "correction wrong piece": 2, "correction counted wrongly": 3,
	} {
		if counts[what] < least {
			t.Errorf("%s occurs %d times, %d wanted", what, counts[what], least)
		}
	}
}

// TestRunnersLeadOddLives: runners that are used again on another player, and ones that
// were done with and are put back.
func TestRunnersLeadOddLives(t *testing.T) {
	_, m := usual(t)
	owner := map[inventory.Number]inventory.Number{}
	retired := map[inventory.Number]bool{}
	reused, putBack, crossed := 0, 0, 0
	for _, e := range m.events {
		if m.voided[e.Key] {
			continue
		}
		switch b := e.Body.(type) {
		case *inventory.SetMade:
			for _, n := range []inventory.Number{b.Left, b.Right} {
				if was := owner[n]; was != 0 && was != b.Player {
					reused++
				}
				if retired[n] {
					putBack++
				}
				owner[n], retired[n] = b.Player, false
			}
			if l, ok := m.states[inventory.RefOf(b.Left)].(*inventory.Runner); ok {
				if r, ok := m.states[inventory.RefOf(b.Right)].(*inventory.Runner); ok && l.Size != r.Size {
					crossed++
				}
			}
		case *inventory.TakenOut:
			for _, removal := range b.Each {
				retired[removal.Runner] = removal.Retired
			}
		}
	}
	t.Logf("%d runners used again on another player, %d put back, %d sets for boots that differ in size", reused, putBack, crossed)
	if reused < 6 || putBack < 4 || crossed < 3 {
		t.Error("at least 6, 4 and 3 wanted")
	}
}

// TestSweatersAreSharedInCamp: two players wear one number then, and hardly otherwise.
func TestSweatersAreSharedInCamp(t *testing.T) {
	_, m := usual(t)
	worn := map[inventory.Number]int{}
	shared := 0
	for _, e := range m.events {
		b, ok := e.Body.(*inventory.PlayerNoted)
		if !ok {
			continue
		}
		delete(worn, b.Player)
		for _, sweater := range worn {
			if sweater == b.Sweater && !b.Gone {
				shared++
			}
		}
		if !b.Gone {
			worn[b.Player] = b.Sweater
		}
	}
	if shared < campTryouts/2 {
		t.Errorf("%d sweaters were shared", shared)
	}
	for _, sweater := range alwaysWorn() {
		if n := len(wearers(worn, sweater)); n != 1 {
			t.Errorf("at the end %d players wear %d", n, sweater)
		}
	}
}

func wearers(worn map[inventory.Number]int, sweater int) []inventory.Number {
	var wearing []inventory.Number
	for n, s := range worn {
		if s == sweater {
			wearing = append(wearing, n)
		}
	}
	return wearing
}

// TestFlagsAreTheMeantOnes: nothing waits for a person but what was left open.
func TestFlagsAreTheMeantOnes(t *testing.T) {
	for seed := range uint64(4) {
		c, m := played(t, Options{Seed: seed, End: endDay()})
		var flagged numbers
		for _, state := range m.states {
			if s, ok := state.(interface{ Flags() []inventory.Flag }); ok {
				for _, flag := range s.Flags() {
					flagged = append(flagged, flag.About)
				}
			}
		}
		slices.Sort(flagged)
		open := c.truth().Open
		if len(open) == 0 || !slices.Equal(flagged, open) {
			t.Errorf("seed %d: flagged are %v, left open were %v", seed, flagged, open)
		}
	}
}

func TestNamesAreOfManyKindsAndOnlyOnce(t *testing.T) {
	c, _ := usual(t)
	seen := map[string]bool{}
	var all strings.Builder
	longest := 0
	for _, p := range c.everybody {
		if seen[p.name] {
			t.Errorf("two players are called %s", p.name)
		}
		seen[p.name] = true
		all.WriteString(p.name)
		longest = max(longest, len([]rune(p.name)))
	}
	for _, letter := range "éøñåőÍ'-" {
		if !strings.ContainsRune(all.String(), letter) {
			t.Errorf("no name has %q", letter)
		}
	}
	if longest < 40 || longest > 80 {
		t.Errorf("the longest name has %d letters", longest)
	}
	n := newNamer(c.chance)
	for range 3000 {
		name := n.name()
		if strings.ContainsAny(name, "0123456789") {
			t.Fatalf("names ran out: %s", name)
		}
	}
}
