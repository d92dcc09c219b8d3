package openwork_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/openwork"
	"steeltally/inventory/sparepair"
	"steeltally/inventory/standing/standingtest"
	"steeltally/inventory/wayback"
)

// options lists the ways back for a skater after something on a side of his first pair.
func (c *club) options(s *skater, side inventory.Side, at time.Time) []wayback.Option {
	c.t.Helper()
	pair, err := inventory.FindPair(&c.Ledger, s.first)
	if err != nil {
		c.t.Fatal(err)
	}
	return wayback.Options(standingtest.Look(&c.Ledger, at), c.player(s), wayback.BreakageOn(&c.Ledger, pair, side, at))
}

func ways(options []wayback.Option) []wayback.Way {
	var ways []wayback.Way
	for _, option := range options {
		ways = append(ways, option.Way)
	}
	return ways
}

// game is a club in which 8 has a spare pair, a ready set, and holders lie in a trunk.
func game(t *testing.T) (*club, *skater, []inventory.Number) {
	c := openClub(t)
	s := c.add(8)
	c.do(days(1), deeds.Grind{Set: s.sets[2]})
	c.do(days(1), deeds.PutAt{Pieces: []inventory.Number{s.sets[2]}, Place: inventory.Place{Name: "trunk 3", Slot: "7"}})
	rights := c.stock(inventory.KindHolder, "Skua H", 280, inventory.Right, 2)
	c.stock(inventory.KindHolder, "Skua H", 280, inventory.Left, 1)
	c.stock(inventory.KindHolder, "Skua H", 272, inventory.Right, 1)
	c.stock(inventory.KindHolder, "Petrel H", 280, inventory.Right, 1)
	c.do(days(1), deeds.PutAt{Pieces: rights, Place: inventory.Place{Name: "trunk 4"}})
	return c, s, rights
}

// The right holder cracks after the first period: the spare pair first, then the right
// holders that fit, with their places. Ready sets are no way while the holder is broken.
func TestRightHolderCracks(t *testing.T) {
	c, s, rights := game(t)
	cracked := s.holders["first right"]
	c.do(theNow, deeds.CallEmergency{Player: s.number, Side: inventory.Right, Broke: deeds.BrokeHolder, Mode: "crack", Zone: "rear-tower"})
	options := c.options(s, inventory.Right, theNow)
	if !slices.Equal(ways(options), []wayback.Way{wayback.ByPair, wayback.ByHolder, wayback.ByHolder}) {
		t.Fatalf("the ways are %v", ways(options))
	}
	if options[0].Numbers[0] != s.spare || options[0].Place.String() != "boot rack, slot 8" || options[0].Seconds != 90 {
		t.Errorf("first comes %+v", options[0])
	}
	old := c.pairOf(s.first).SeatAt(inventory.Right, theNow).Runner
	for i, option := range options[1:] {
		if option.Numbers[0] != rights[i] || option.Place.Name != "trunk 4" || option.Numbers[1] != old || len(option.Lacks) != 0 {
			t.Errorf("holder %d is %+v", i, option)
		}
	}
	for _, option := range options {
		if slices.Contains(option.Numbers, cracked) {
			t.Errorf("the cracked holder is offered: %+v", option)
		}
	}
}

func (c *club) pairOf(n inventory.Number) *inventory.Pair {
	c.t.Helper()
	pair, err := inventory.FindPair(&c.Ledger, n)
	if err != nil {
		c.t.Fatal(err)
	}
	return pair
}

// The steel breaks and the holder is sound: a ready set first.
func TestSteelBreaks(t *testing.T) {
	c, s, _ := game(t)
	c.do(theNow, deeds.CallEmergency{Player: s.number, Side: inventory.Right, Broke: deeds.BrokeRunner})
	options := c.options(s, inventory.Right, theNow)
	if !slices.Equal(ways(options), []wayback.Way{wayback.BySet, wayback.ByPair}) || options[0].Place.String() != "trunk 3, slot 7" || options[0].Seconds >= options[1].Seconds {
		t.Fatalf("the ways are %+v", options)
	}
	// without a set that lies ready, a new runner from stock
	set, _ := inventory.FindSet(&c.Ledger, s.sets[2])
	c.do(theNow, deeds.ReportDamage{Piece: set.Left, Mode: "bend"})
	fresh := c.stock(inventory.KindRunner, "Skua R", 280, "", 1)
	options = c.options(s, inventory.Right, theNow)
	if !slices.Equal(ways(options), []wayback.Way{wayback.ByPair, wayback.BySet}) || options[1].Numbers[0] != fresh[0] || len(options[1].Lacks) == 0 {
		t.Fatalf("the ways are %+v", options)
	}
}

// Nobody looked yet: what is sure comes before what only may be.
func TestNobodyLookedYet(t *testing.T) {
	c, s, _ := game(t)
	c.do(theNow, deeds.CallEmergency{Player: s.number, Side: inventory.Right})
	holder, runner := s.holders["first right"], c.pairOf(s.first).SeatAt(inventory.Right, theNow).Runner
	for _, n := range []inventory.Number{holder, runner} {
		if !inventory.MarksOf(&c.Ledger, n).DoNotSkate(theNow) {
			t.Errorf("%s may be skated on", n.Short())
		}
	}
	options := c.options(s, inventory.Right, theNow)
	if !slices.Equal(ways(options), []wayback.Way{wayback.ByPair, wayback.BySet, wayback.ByHolder, wayback.ByHolder}) {
		t.Fatalf("the ways are %v", ways(options))
	}
	if options[1].Lacks[0] != "only if the holder is sound: look first" || options[2].Lacks[0] != "only if the steel is sound: look first" {
		t.Errorf("unsaid what has to be looked at: %+v", options)
	}
	if work := openwork.Work(standingtest.Look(&c.Ledger, theNow)); len(work) < 3 || work[0].Sort != openwork.WorkEmergency || work[1].Sort != openwork.WorkSuspect || work[2].Sort != openwork.WorkSuspect {
		t.Errorf("open work: %+v", work)
	}
}

// A loose rivet is no crack: the pair is offered, with what is to be mended first.
func TestALooseRivetIsSaid(t *testing.T) {
	c, s, _ := game(t)
	loose := s.holders["spare left"]
	c.do(days(0.5), deeds.ReportDamage{Piece: loose, Mode: "loose-rivet", Zone: "heel"})
	c.do(theNow, deeds.CallEmergency{Player: s.number, Side: inventory.Right, Broke: deeds.BrokeHolder})
	pair := c.options(s, inventory.Right, theNow)[0]
	if pair.Way != wayback.ByPair || !slices.Equal(pair.Lacks, []string{"open: " + loose.Short() + ", loose-rivet heel"}) || pair.Seconds != 90+5*60 {
		t.Errorf("offered first: %+v", pair)
	}
}

// What is broken, lent or scrapped is never offered.
func TestNothingBrokenIsOffered(t *testing.T) {
	c, s, rights := game(t)
	c.do(days(0.5), deeds.ReportDamage{Piece: s.holders["spare left"], Mode: "crack"})
	c.do(days(0.5), deeds.Scrap{Pieces: rights[:1]})
	c.do(days(0.5), deeds.HandOver{Pieces: rights[1:], Custody: "loan", With: "Cold Sound"})
	c.do(theNow, deeds.CallEmergency{Player: s.number, Side: inventory.Right, Broke: deeds.BrokeHolder})
	if options := c.options(s, inventory.Right, theNow); len(options) != 0 {
		t.Errorf("offered: %+v", options)
	}
}

// How it ends: what broke becomes a damage of that time, the rest stays marked until
// somebody looked at it, the game was played on the spare pair, and it comes back as open work until it is mended for good.
func TestAfterAnEmergency(t *testing.T) {
	c, s, rights := game(t)
	c.do(days(1), deeds.CallEmergency{Player: s.number, Side: inventory.Right})
	holder, runner := s.holders["first right"], c.pairOf(s.first).SeatAt(inventory.Right, theNow).Runner
	minutes, shifts := 2.0, 1
	c.do(days(0.9), deeds.EndEmergency{
		Player: s.number, Did: inventory.RemedySpare, Broke: deeds.BrokeHolder, Mode: "crack", Zone: "toe", Minutes: &minutes, ShiftsMissed: &shifts,
	})
	if !inventory.MarksOf(&c.Ledger, holder).DamagedForGood(theNow) || !inventory.MarksOf(&c.Ledger, runner).DoNotSkate(theNow) {
		t.Error("the holder should be cracked, and nobody has looked at the runner")
	}
	c.do(days(0.8), deeds.Inspect{Piece: runner, Sound: true, Sure: []inventory.Number{runner}})
	if inventory.MarksOf(&c.Ledger, runner).DoNotSkate(theNow) {
		t.Error("the runner was looked at, and is sound")
	}
	damage := inventory.MarksOf(&c.Ledger, holder).Damages[0]
	if !damage.When.Start.Equal(inventory.At(days(1)).Start) || *damage.Value.ShiftsMissed != 1 {
		t.Errorf("the damage is %+v", damage)
	}
	c.is(s, sparepair.Fixable, sparepair.FixGrind, "not ground since it was skated")
	sorts := func() []openwork.Sort {
		var sorts []openwork.Sort
		for _, item := range openwork.Work(standingtest.Look(&c.Ledger, theNow)) {
			sorts = append(sorts, item.Sort)
		}
		return sorts
	}
	if got := sorts(); !slices.Equal(got, []openwork.Sort{openwork.WorkUnsafe, openwork.WorkEmergency, openwork.WorkSpare}) {
		t.Fatalf("open work %v", got)
	}
	c.do(days(0.5), deeds.RivetOff{Holder: holder})
	if got := sorts(); !slices.Equal(got, []openwork.Sort{openwork.WorkEmergency, openwork.WorkBare, openwork.WorkSpare}) {
		t.Fatalf("open work %v", got)
	}
	c.do(days(0.5), deeds.RivetOn{Holder: rights[0], Pair: s.first})
	c.waits(theNow, openwork.WorkBare, "the right boot of the first pair has no runner")
	c.do(days(0.45), deeds.TakeRunnerOut{Runner: runner, Reason: "rotate"})
	c.do(days(0.45), deeds.PutSetIn{Player: s.number, Set: s.sets[0], Pair: s.first})
	c.do(days(0.4), deeds.Grind{Player: s.number, Pair: s.spare})
	if got := sorts(); !slices.Equal(got, []openwork.Sort{openwork.WorkEmergency}) {
		t.Fatalf("open work %v", got)
	}
	c.do(days(0.3), deeds.CloseEmergency{Player: s.number})
	if got := sorts(); len(got) != 0 {
		t.Fatalf("open work %v", got)
	}
	if _, err := c.try(theNow, deeds.CloseEmergency{Player: s.number}); err == nil {
		t.Error("closed twice")
	}
}

// A runner that is in another pair, or a set of another size, is no way back.
func TestOnlyWhatFits(t *testing.T) {
	c, s, _ := game(t)
	other := c.add(9)
	c.do(theNow, deeds.CallEmergency{Player: s.number, Side: inventory.Left, Broke: deeds.BrokeRunner})
	for _, option := range c.options(s, inventory.Left, theNow) {
		for _, n := range option.Numbers {
			if n == other.sets[2] || n == other.spare || n == other.spareRunners[0] {
				t.Errorf("%s of another player is offered", n.Short())
			}
		}
	}
}

// Nobody declared the models: what is like the old thing is offered, and what can't be
// checked is said.
func TestUndeclaredModels(t *testing.T) {
	c := &club{t: t}
	c.do(days(200), deeds.FoundClub{Name: "Skarn Harbour Terns", Zone: "UTC", Station: 1})
	s := c.add(8)
	c.do(days(1), deeds.Grind{Set: s.sets[2]})
	right := c.stock(inventory.KindHolder, "Skua H", 280, inventory.Right, 1)[0]
	c.stock(inventory.KindHolder, "Petrel H", 280, inventory.Right, 1)
	c.stock(inventory.KindRunner, "Petrel R", 280, "", 1)
	fresh := c.stock(inventory.KindRunner, "Skua R", 280, "", 1)[0]
	c.is(s, sparepair.Ready, "", "")
	c.do(theNow, deeds.ReportDamage{Piece: s.holders["first right"], Mode: "break"})
	c.do(theNow, deeds.ReportDamage{Piece: c.pairOf(s.first).SeatAt(inventory.Right, theNow).Runner, Mode: "bend"})
	options := c.options(s, inventory.Right, theNow)
	if len(options) != 2 || options[1].Numbers[0] != right || options[1].Numbers[1] != s.sets[2] || !strings.Contains(options[1].Lacks[1], "not declared") {
		t.Fatalf("offered: %+v", options)
	}
	c.do(theNow, deeds.Scrap{Pieces: []inventory.Number{s.sets[2]}})
	options = c.options(s, inventory.Right, theNow)
	if len(options) != 2 || options[1].Numbers[1] != fresh {
		t.Fatalf("offered: %+v", options)
	}
}
