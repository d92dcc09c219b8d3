package demo

import (
	"slices"
	"strings"
	"testing"

	"steeltally/inventory"
)

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
