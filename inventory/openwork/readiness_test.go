package openwork_test

import (
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/openwork"
	"steeltally/inventory/sparepair"
	"steeltally/inventory/standing/standingtest"
)

// Of 23 players 20 are ready, one is low, one has another hollow, one has no spare.
func TestSquadOfTwentyThree(t *testing.T) {
	c := openClub(t)
	var skaters []*skater
	for sweater := 2; sweater < 25; sweater++ {
		skaters = append(skaters, c.add(sweater))
	}
	low, hollow, none := skaters[4], skaters[11], skaters[17]
	c.do(days(2), deeds.MeasureSteel{Player: low.number, Heights: []inventory.Height{
		{Runner: low.spareRunners[0], Side: inventory.Left, Middle: mm(9.2)}, {Runner: low.spareRunners[1], Side: inventory.Right, Middle: mm(9.2)},
	}})
	c.do(days(2), deeds.Grind{Player: hollow.number, Pair: hollow.spare, Work: "new-hollow", Hollow: cut(t, "5/8in")})
	c.do(days(2), deeds.GiveRole{Pair: none.spare, Role: inventory.RoleKept})
	count := map[sparepair.State]int{}
	for _, p := range sparepair.Squad(standingtest.Look(&c.Ledger, theNow)) {
		count[p.State()]++
		if p.State() == sparepair.Ready && len(p.Spare.Causes) > 0 {
			t.Errorf("%d is ready and yet %q", p.Sweater, p.Spare.Cause().What)
		}
	}
	if count[sparepair.Ready] != 20 || count[sparepair.Fixable] != 2 || count[sparepair.Missing] != 1 || len(count) != 3 {
		t.Fatalf("states %v, want 20 ready, 2 to fix, 1 missing", count)
	}
	c.is(low, sparepair.Fixable, sparepair.FixHeight, "low: left 9.20 mm, first pair 11.80 mm")
	c.is(hollow, sparepair.Fixable, sparepair.FixHollow, "hollow 5/8 in against 1/2 in")
	c.is(none, sparepair.Missing, "", "no spare pair")
	squad := sparepair.Squad(standingtest.Look(&c.Ledger, theNow))
	sparepair.WorstFirst(squad)
	if squad[0].Sweater != none.sweater || squad[1].Sweater != hollow.sweater && squad[1].Sweater != low.sweater {
		t.Errorf("worst first: %d, %d, %d", squad[0].Sweater, squad[1].Sweater, squad[2].Sweater)
	}
}

// What a pair lacks from the start.
func TestPairsThatWereNeverReady(t *testing.T) {
	c := openClub(t)
	s := &skater{sweater: 9, size: 280, holders: map[string]inventory.Number{}}
	s.number = c.do(days(200), deeds.AddPlayer{Name: "Skater of 9", Position: "forward", Sweater: 9})[0].Body.(*inventory.PlayerNoted).Player
	passes := 5
	c.do(days(199), deeds.NoteSpecs{Player: s.number, Specs: inventory.Specs{Hollow: cut(t, "1/2in"), Passes: &passes}})
	s.first, _, _ = c.equip(s, inventory.RoleFirst, "Skua")
	c.is(s, sparepair.Missing, "", "no spare pair")
	s.spare, _, s.spareRunners = c.equip(s, inventory.RoleSpare, "Petrel")
	pair := c.spareOf(s)
	var fixes []sparepair.Fix
	for _, cause := range pair.Causes {
		fixes = append(fixes, cause.Fix)
	}
	want := []sparepair.Fix{sparepair.FixPlace, sparepair.FixFamily, sparepair.FixFamily, sparepair.FixGrind, sparepair.FixLook, sparepair.FixLook, sparepair.FixTry}
	if len(fixes) != len(want) {
		t.Fatalf("causes %v, want %v", fixes, want)
	}
	for i := range want {
		if fixes[i] != want[i] {
			t.Fatalf("causes %v, want %v", fixes, want)
		}
	}
	if pair.Minutes() != 3+20+20+4+3+3+5 {
		t.Errorf("all takes %d minutes", pair.Minutes())
	}
	c.makeReady(s)
	c.is(s, sparepair.Fixable, sparepair.FixFamily, "left holder of family Petrel, first pair's Skua")
	twelve := []inventory.FixTime{{Fix: string(sparepair.FixFamily), Minutes: 12}}
	c.do(days(1), deeds.SetRules{SpareRules: inventory.SpareRules{Minutes: twelve}})
	if cause := c.spareOf(s).Causes[0]; cause.Minutes != 12 {
		t.Errorf("the club says 12 minutes, told were %d", cause.Minutes)
	}
}

// A set that came off the first pair was skated until then.
func TestSteelFromTheFirstPairIsGroundAgain(t *testing.T) {
	c := openClub(t)
	s := c.add(17)
	c.do(days(2), deeds.TakeOut{Player: s.number, Pair: s.spare, Reason: "rotate"})
	c.do(days(2), deeds.ChangeSteel{TakeOut: deeds.TakeOut{Player: s.number, Reason: "rotate"}, Set: s.sets[1]})
	c.do(days(1), deeds.PutSetIn{Player: s.number, Set: s.sets[0], Pair: s.spare})
	c.is(s, sparepair.Fixable, sparepair.FixGrind, "not ground since it was skated")
	c.do(days(1), deeds.Grind{Player: s.number, Pair: s.spare})
	c.is(s, sparepair.Ready, "", "")
}

// A crack anywhere in the pair: nobody skates on it, and no look makes it ready.
func TestACrackOverridesEverything(t *testing.T) {
	for _, piece := range []string{"spare left", "spare right"} {
		c := openClub(t)
		s := c.add(8)
		holder := s.holders[piece]
		c.do(days(1), deeds.ReportDamage{Piece: holder, Mode: "crack", Zone: "rear-tower"})
		c.is(s, sparepair.Fixable, sparepair.FixHolder, "DO NOT SKATE: "+holder.Short()+", crack rear-tower")
		if _, err := c.try(days(0), deeds.Inspect{Piece: holder, Sound: true}); err == nil {
			t.Error("a look closed a crack")
		}
	}
}

// A player who left is history: nobody asks for his spare pair.
func TestATradedPlayersPiecesAreHistory(t *testing.T) {
	c := openClub(t)
	stays, goes := c.add(8), c.add(9)
	c.do(days(1), deeds.Trade{Player: goes.number, To: "Cold Sound"})
	squad := sparepair.Squad(standingtest.Look(&c.Ledger, theNow))
	if len(squad) != 1 || squad[0].Number != stays.number {
		t.Fatalf("the squad is %+v", squad)
	}
	for _, item := range openwork.Work(standingtest.Look(&c.Ledger, theNow)) {
		if item.Player == goes.number {
			t.Errorf("open work: %s", item.What)
		}
	}
	if custody := inventory.MarksOf(&c.Ledger, goes.spare).CustodyAt(theNow); custody.Custody != "traded" || custody.With != "Cold Sound" {
		t.Errorf("his spare pair is %s", custody)
	}
	if !inventory.MarksOf(&c.Ledger, goes.sets[2]).CustodyAt(theNow).Ours() {
		t.Error("the set that was on none of his pairs went with him")
	}
	if history, err := inventory.FindPair(&c.Ledger, goes.spare); err != nil || len(history.Left.Holders) == 0 {
		t.Errorf("its history is gone: %v", err)
	}
}

func TestReadySets(t *testing.T) {
	c := openClub(t)
	s := c.add(17)
	sets := sparepair.ReadySets(standingtest.Look(&c.Ledger, theNow), c.player(s))
	if len(sets) != 1 || sets[0].Number != s.sets[2] || sets[0].State != sparepair.Fixable || sets[0].Causes[0].What != "never ground" {
		t.Fatalf("ready sets: %+v", sets)
	}
	c.do(days(1), deeds.Grind{Set: s.sets[2]})
	sets = sparepair.ReadySets(standingtest.Look(&c.Ledger, theNow), c.player(s))
	if len(sets) != 1 || sets[0].State != sparepair.Ready || *sets[0].Felt.Left != 0 {
		t.Fatalf("ready sets: %+v", sets)
	}
	set, _ := inventory.FindSet(&c.Ledger, s.sets[2])
	c.do(days(1), deeds.ReportDamage{Piece: set.Right, Mode: "crack"})
	if sets = sparepair.ReadySets(standingtest.Look(&c.Ledger, theNow), c.player(s)); sets[0].State == sparepair.Ready {
		t.Error("a set with a cracked runner is ready")
	}
}

// A set that was done with and is used again lies ready again when it comes off.
func TestASetThatIsUsedAgain(t *testing.T) {
	c := openClub(t)
	s := c.add(17)
	c.do(days(2), deeds.ChangeSteel{TakeOut: deeds.TakeOut{Player: s.number, Reason: "low"}, Set: s.sets[2]})
	if sets := sparepair.ReadySets(standingtest.Look(&c.Ledger, theNow), c.player(s)); len(sets) != 0 {
		t.Fatalf("ready sets: %+v", sets)
	}
	c.do(days(1), deeds.ChangeSteel{TakeOut: deeds.TakeOut{Player: s.number, Reason: "rotate"}, Set: s.sets[0]})
	c.do(days(0.5), deeds.ChangeSteel{TakeOut: deeds.TakeOut{Player: s.number, Reason: "rotate"}, Set: s.sets[2]})
	if sets := sparepair.ReadySets(standingtest.Look(&c.Ledger, theNow), c.player(s)); len(sets) != 1 || sets[0].Number != s.sets[0] {
		t.Fatalf("ready sets: %+v", sets)
	}
}
