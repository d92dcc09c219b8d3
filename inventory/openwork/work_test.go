package openwork_test

import (
	"slices"
	"strings"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/openwork"
	"steeltally/inventory/roadtrip"
	"steeltally/inventory/standing"
	"steeltally/inventory/standing/standingtest"
)

// open lists what waits, by sort and words.
func (c *club) open(at time.Time) []string {
	var open []string
	for _, item := range openwork.Work(standingtest.Look(&c.Ledger, at)) {
		open = append(open, string(item.Sort)+": "+item.What)
	}
	return open
}

func (c *club) waits(at time.Time, sort openwork.Sort, what string) {
	c.t.Helper()
	open := c.open(at)
	if !slices.ContainsFunc(open, func(line string) bool {
		return strings.HasPrefix(line, string(sort)+": ") && strings.Contains(line, what)
	}) {
		c.t.Errorf("nothing waits as %s with %q, but %q", sort, what, open)
	}
}

// nothingWaits checks that nothing waits but spare pairs, which are ready only lately.
func (c *club) nothingWaits(at time.Time) {
	c.t.Helper()
	for _, line := range c.open(at) {
		if !strings.HasPrefix(line, string(openwork.WorkSpare)) {
			c.t.Errorf("there waits %q", line)
		}
	}
}

// day is the whole day so many days before today.
func day(ago int) inventory.When {
	midnight := theNow.Truncate(24 * time.Hour)
	return inventory.Between(midnight.AddDate(0, 0, -ago), midnight.AddDate(0, 0, 1-ago))
}

func TestNothingWaitsInAGoodRecord(t *testing.T) {
	c := openClub(t)
	c.add(8)
	if open := c.open(theNow); len(open) != 0 {
		t.Errorf("there waits %q", open)
	}
}

// What was sent to the maker: overdue without an answer, then with a promise, then over.
func TestMakerReturns(t *testing.T) {
	c := openClub(t)
	holder := c.stock(inventory.KindHolder, "Skua H", 280, inventory.Left, 1)[0]
	due := day(10)
	c.do(days(20), deeds.HandOver{Pieces: []inventory.Number{holder}, Custody: "maker", With: "Skua Works", Reference: "25-7", Due: due})
	c.nothingWaits(days(11))
	c.waits(theNow, openwork.WorkOverdue, "with the maker (Skua Works), reference 25-7, due 16 Nov 2025, no answer yet")
	c.do(days(8), deeds.NoteAnswer{Reference: "25-7", Decision: "replace", Due: day(3)})
	c.nothingWaits(days(4))
	c.waits(theNow, openwork.WorkOverdue, "replace promised")
	c.do(days(1), deeds.NoteAnswer{Reference: "25-7", Decision: "settled"})
	c.nothingWaits(theNow)
	if _, err := c.try(theNow, deeds.NoteAnswer{Reference: "25-8", Decision: "settled"}); err == nil {
		t.Error("an unknown reference was answered")
	}
}

// What comes back is looked at and measured, and has passes that nobody counted.
func TestWhatComesBack(t *testing.T) {
	c := openClub(t)
	s := c.add(8)
	c.do(days(20), deeds.HandOver{Pieces: []inventory.Number{s.spare}, Custody: "farm", Due: day(16)})
	c.waits(days(12), openwork.WorkOverdue, "with the farm club")
	c.do(days(10), deeds.TakeBack{Pieces: []inventory.Number{s.spare}})
	for _, n := range s.spareRunners {
		runner, _ := inventory.FindRunner(&c.Ledger, n)
		if wear := runner.WearAt(days(9)); wear.UnknownWorks != 1 {
			t.Errorf("%s: %d works of unknown passes", n.Short(), wear.UnknownWorks)
		}
	}
	c.waits(days(9), openwork.WorkReturned, "back (was with the farm club): look at it, measure")
	// makeReady looked at the pair five days ago
	c.waits(days(4), openwork.WorkReturned, "back (was with the farm club): measure")
	c.do(days(1), deeds.MeasureSteel{Player: s.number, Heights: []inventory.Height{
		{Runner: s.spareRunners[0], Middle: mm(11.8)}, {Runner: s.spareRunners[1], Middle: mm(11.8)},
	}})
	c.do(days(1), deeds.Inspect{Piece: s.spare, Sound: true})
	c.nothingWaits(theNow)
}

// A player who would not change is asked again on that day, while that set is on.
func TestRefusalsAreAskedAgain(t *testing.T) {
	c := openClub(t)
	s := c.add(8)
	c.do(days(6), deeds.RefuseChange{Player: s.number, Answer: "not before the derby", Review: day(2)})
	c.nothingWaits(days(3))
	c.waits(theNow, openwork.WorkAsk, "not before the derby")
	c.do(days(0.5), deeds.ChangeSteel{TakeOut: deeds.TakeOut{Player: s.number, Reason: "low"}, Set: s.sets[2]})
	for _, line := range c.open(theNow) {
		if strings.HasPrefix(line, string(openwork.WorkAsk)) {
			t.Errorf("still asked: %s", line)
		}
	}
}

// Two entries that can't both be right wait once, not on every piece that they name.
func TestAConflictWaitsOnce(t *testing.T) {
	c := openClub(t)
	s := c.add(8)
	c.do(days(0.5), deeds.Grind{Player: s.number})
	c.do(days(0.5).Add(20*time.Second), deeds.Grind{Player: s.number})
	open := c.open(theNow)
	if len(open) != 1 || !strings.HasPrefix(open[0], "conflict: R1-") || !strings.Contains(open[0], "two grinds 20 s apart") {
		t.Errorf("there waits %q", open)
	}
}

// What a called-up player could not say is asked until it is known.
func TestCalledUpPlayersAreAsked(t *testing.T) {
	c := openClub(t)
	size := 272
	c.stock(inventory.KindHolder, "Skua H", 272, inventory.Right, 1)
	c.stock(inventory.KindRunner, "Skua R", 272, "", 3)
	c.stock(inventory.KindRunner, "Skua R", 280, "", 9)
	events := c.do(days(1), deeds.CallUp{
		Name: "Odd Ferrin", Sweater: 27, Family: "skua", Sizes: inventory.Both[int]{Left: &size, Right: &size}, Hollow: cut(t, "1/2in"), Unknown: []string{"profile"},
	})
	n := events[0].Body.(*inventory.PlayerNoted).Player
	c.waits(theNow, openwork.WorkAsk, "27 Odd Ferrin was called up: ask about profile, pitch")
	player, _ := inventory.PlayerOf(&c.Ledger, n)
	needs := map[string][3]int{}
	for _, need := range roadtrip.Needs(standingtest.Look(&c.Ledger, theNow), player) {
		needs[need.What] = [3]int{need.Want, len(need.Stock), need.Buy}
	}
	for what, want := range map[string][3]int{"left runner": {2, 2, 0}, "right runner": {2, 1, 1}, "left holder": {1, 0, 1}, "right holder": {1, 1, 0}} {
		if needs[what] != want {
			t.Errorf("%s: wanted, in stock, to buy %v; want %v", what, needs[what], want)
		}
	}
	c.do(days(0.5), deeds.NoteSpecs{Player: n, Specs: inventory.Specs{Profile: inventory.Profile{3048}, Pitch: mm(0)}})
	c.nothingWaits(theNow)
}

// Another player's ready set can help out, when he is asked.
func TestOthersCanHelpOut(t *testing.T) {
	c := openClub(t)
	c.add(8)
	size := 280
	events := c.do(days(1), deeds.CallUp{Name: "Odd Ferrin", Sweater: 27, Family: "Skua", Sizes: inventory.Both[int]{Left: &size}})
	player, _ := inventory.PlayerOf(&c.Ledger, events[0].Body.(*inventory.PlayerNoted).Player)
	for _, need := range roadtrip.Needs(standingtest.Look(&c.Ledger, theNow), player) {
		switch {
		case need.What == "left runner" && (len(need.Others) != 1 || need.Others[0].Owner != "Skater of 8"):
			t.Errorf("of others: %+v", need.Others)
		case need.Side == inventory.Right && need.Uncertain == "":
			t.Errorf("the right size is not known, and yet: %+v", need)
		}
	}
}

// Season's end: what is done with lies in the bin, what is on or gone does not.
func TestWhatLiesAbout(t *testing.T) {
	c := openClub(t)
	s := c.add(8)
	bin := inventory.Place{Name: "bin 3"}
	c.do(days(2), deeds.ChangeSteel{TakeOut: deeds.TakeOut{Player: s.number, Reason: "low", Place: &bin}, Set: s.sets[2]})
	fresh := c.stock(inventory.KindRunner, "Skua R", 280, "", 1)
	c.do(days(2), deeds.PutAt{Pieces: fresh, Place: bin})
	lying := roadtrip.LyingAbout(&c.Ledger, theNow)
	if len(lying) != 1 || lying[0].Place != "bin 3" || len(lying[0].Done) != 2 || !slices.Equal(lying[0].Usable, fresh) {
		t.Fatalf("there lies %+v", lying)
	}
	c.do(days(1), deeds.Scrap{Pieces: lying[0].Done, Reason: "season's end"})
	if lying = roadtrip.LyingAbout(&c.Ledger, theNow); len(lying) != 1 || len(lying[0].Done) != 0 {
		t.Errorf("there lies %+v", lying)
	}
	if _, err := c.try(theNow, deeds.Scrap{Pieces: []inventory.Number{s.spareRunners[0]}}); err == nil {
		t.Error("steel in a holder was scrapped")
	}
}

// Steel on the spare pair that was never ground waits once, and honing it is no grind, here
// and in what is known of a player's steel.
func TestNeverGroundIsSaidOnce(t *testing.T) {
	c := openClub(t)
	s := c.add(8)
	c.do(days(2), deeds.ChangeSteel{TakeOut: deeds.TakeOut{Player: s.number, Pair: s.spare, Reason: "rotate"}, Set: s.sets[2]})
	c.do(days(1), deeds.Grind{Set: s.sets[2], Work: inventory.WorkHone})
	if open := c.open(theNow); len(open) != 1 || !strings.Contains(open[0], "was never ground") {
		t.Errorf("there waits %q", open)
	}
	c.do(days(1), deeds.TakeOut{Player: s.number, Pair: s.spare, Reason: "rotate"})
	member, err := standing.Gather(&c.Ledger, s.number, theNow)
	if err != nil {
		t.Fatal(err)
	}
	for _, ready := range member.Ready {
		if set, _ := inventory.FindSet(&c.Ledger, ready.Set); ready.Ground == standing.NeverGround(set, theNow) {
			t.Errorf("set %s: ground %v, and %v that it never was", ready.Letter, ready.Ground, !ready.Ground)
		}
	}
	if len(member.Ready) != 2 {
		t.Errorf("ready: %+v", member.Ready)
	}
}

// What came off in an emergency of who has left, and stayed with the club, waits to be looked
// at; what went with him does not.
func TestSuspectsThatStayedWait(t *testing.T) {
	c := openClub(t)
	s := c.add(9)
	c.do(days(3), deeds.CallEmergency{Player: s.number, Side: inventory.Left})
	c.do(days(2), deeds.TakeOut{Player: s.number, Pair: s.first, Reason: "rotate"})
	c.do(days(1), deeds.Trade{Player: s.number, To: "Cold Sound"})
	set, err := inventory.FindSet(&c.Ledger, s.sets[0])
	if err != nil {
		t.Fatal(err)
	}
	c.waits(theNow, openwork.WorkSuspect, set.Left.Short()+" may be broken")
	for _, line := range c.open(theNow) {
		if strings.Contains(line, s.holders["first left"].Short()) {
			t.Errorf("what went with him waits: %q", line)
		}
	}
}
