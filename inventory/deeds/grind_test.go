package deeds

import (
	"slices"
	"strings"
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

func TestGrindLandsOnTheSetThatIsOn(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	ground := c.grind("4 07:00")
	if ground.Set != c.setA || ground.Pair != c.pair || ground.Left.Runner != c.runners[0] || ground.Right.Runner != c.runners[1] {
		t.Errorf("it went to %+v", ground)
	}
	if *ground.Left.Passes != 5 || *ground.Right.Passes != 5 || ground.Hollow.String() != "1/2 in" {
		t.Errorf("the usual was not taken: %+v", ground)
	}
	c.wearOf(c.runners[0], 1, 5)
	c.wearOf(c.runners[2], 0, 0)
}

func TestMorningGrindEnteredAfterTheNoonChange(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.change("4 12:00", c.setB, "rotate")
	if ground := c.grind("4 07:00"); ground.Set != c.setA {
		t.Errorf("the morning's grind went to %s", ground.Set.Short())
	}
	if ground := c.grind("4 12:00"); ground.Set != c.setB {
		t.Errorf("a grind at the instant of the change went to %s, want the new set", ground.Set.Short())
	}
	c.wearOf(c.runners[0], 1, 5)
	c.wearOf(c.runners[2], 1, 5)
	c.unflagged()
}

func TestGrindNeedsSteel(t *testing.T) {
	c := openClubhouse(t)
	c.refuses("4 07:00", Grind{Player: c.bo}, "no steel was on")
	c.putIn("5 10:00", c.setA)
	c.refuses("4 07:00", Grind{Player: c.bo}, "no steel was on")
	c.refuses("2025-11-05", Grind{Player: c.bo}, "no steel was on") // midnight, as vague as it is
	c.refuses("6 07:00", Grind{Player: c.setA}, "is a set, not a player")
	c.refuses("6 07:00", Grind{Player: c.bo, Pair: c.kitPair}, "is not Bo Quillon's")
	unknown, _ := inventory.NewNumber(inventory.KindPlayer, 1, 777)
	c.refuses("6 07:00", Grind{Player: unknown}, "not in this book")
	c.refuses("2026-01-04 07:00", Grind{Player: c.bo}, "future")
}

func TestPassesThatCannotBe(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	for _, wrong := range []inventory.Both[int]{passes(0, 0), passes(99, 99), passes(-5, 5), passes(5, 0)} {
		c.refuses("4 07:00", Grind{Player: c.bo, Passes: wrong}, "are possible")
	}
	six := 6
	c.refuses("4 07:00", Grind{Player: c.bo, Passes: inventory.Both[int]{Left: &six}}, "how many passes did the right get")
	c.refuses("4 07:00", Grind{Player: c.bo, Work: "polish"}, "not known")
	c.refuses("4 07:00", Grind{Player: c.bo, Work: "new-hollow", Passes: passes(9, 9)}, "needs to be named")
	c.wearOf(c.runners[0], 0, 0)
}

func TestUnevenPassesAreTakenWithTheOffer(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.do("4 07:00", Grind{Player: c.bo, Passes: passes(6, 5)})
	c.told("1 more right?")
	c.do("4 08:00", Grind{Player: c.bo, Passes: passes(4, 6)})
	c.told("2 more left?")
	c.do("4 09:00", Grind{Player: c.bo, Passes: passes(5, 5)})
	c.quiet()
	c.do("4 10:00", Grind{Player: c.bo, Work: "nick", Passes: passes(14, 5)})
	c.quiet()
	c.wearOf(c.runners[0], 3, 6+4+5+14)
	c.wearOf(c.runners[1], 3, 5+6+5+5)
}

func TestPassesBySomebodyElseAreUnknownNotZero(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.grind("4 07:00")
	c.do("2025-11-10", Grind{Player: c.bo, Unknown: true, By: "the rink at Cold Sound"})
	wear := c.runner(c.runners[0]).WearAt(theNow)
	if wear.Grinds != 2 || wear.Passes != 5 || wear.UnknownWorks != 1 {
		t.Errorf("got %+v", wear)
	}
	if work := c.runner(c.runners[0]).Works[1].Value; work.Passes != nil {
		t.Errorf("the passes are %d, want unknown", *work.Passes)
	}
}

func TestHoningTakesNoPassesAndNoSteel(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.do("4 07:00", Grind{Player: c.bo, Work: "hone"})
	if wear := c.runner(c.runners[0]).WearAt(theNow); wear.Grinds != 0 || wear.Passes != 0 || wear.UnknownWorks != 0 {
		t.Errorf("honing wore %+v", wear)
	}
}

func TestPassesForASideThatIsEmptyAreRefused(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.do("4 09:00", TakeOut{Player: c.bo, Side: inventory.Right, Reason: "rotate"})
	c.refuses("4 10:00", Grind{Player: c.bo, Passes: passes(6, 5)}, "no right runner was on")
	c.grind("4 11:00")
	c.wearOf(c.runners[0], 1, 5)
	c.wearOf(c.runners[1], 0, 0)
}

func TestGrindInTheHand(t *testing.T) {
	c := openClubhouse(t)
	events := c.do("4 07:00", Grind{Set: c.setB})
	if ground := events[0].Body.(*inventory.Ground); ground.Player != c.bo || ground.Pair != 0 || *ground.Left.Passes != 5 {
		t.Errorf("got %+v", ground)
	}
	c.wearOf(c.runners[3], 1, 5)
	c.match(c.bo, c.runners[2], c.runners[7])
	c.refuses("5 07:00", Grind{Set: c.setB}, "gave a runner to another set")
}

func TestNobodyGrindsDamagedSteel(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.do("4 12:00", ReportDamage{Piece: c.runners[1], Mode: "crack"})
	c.refuses("4 13:00", Grind{Player: c.bo}, "damaged: do not grind or skate")
	c.grind("4 07:00") // before it was found
}

func TestGrindTwiceWithinAMinute(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.grind("4 07:00:00")
	c.do("4 07:01:00", Grind{Player: c.bo})
	c.quiet()
	c.unflagged()
	c.do("4 07:01:59", Grind{Player: c.bo})
	c.told("twice within a minute")
	c.flagged(c.runners[0], "two grinds 59 s apart")
	c.flagged(c.runners[1], "two grinds 59 s apart")
	c.do("4 06:59:30", Grind{Player: c.bo}) // noted late, and just before the first
	c.told("twice within a minute")
}

// A person who was asked and says that it is one more has said all there is to say of it.
func TestOneMoreGrindThatAPersonMeant(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.grind("4 07:00:00")
	c.do("4 07:00:40", Grind{Player: c.bo, Again: true})
	c.quiet()
	c.do("4 07:00:20", Grind{Player: c.bo, Again: true}) // noted late, between the two
	c.quiet()
	c.unflagged()
	c.do("4 07:01:10", Grind{Player: c.bo}) // of this one nobody was asked
	c.flagged(c.runners[0], "two grinds 30 s apart")
}

func TestAHoneBetweenDoesNotHideADoubleGrind(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.grind("4 07:00:00")
	c.do("4 07:00:20", Grind{Player: c.bo, Work: "hone"})
	c.quiet()
	c.do("4 07:00:40", Grind{Player: c.bo})
	c.told("twice within a minute")
	c.flagged(c.runners[0], "two grinds 40 s apart")
}

func TestGrindOfSeveralPlayersIsAllOrNone(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.refuses("4 07:00", GrindMany{Players: []inventory.Number{c.bo, c.kit}}, "no steel was on")
	c.do("3 10:00", PutSetIn{Player: c.kit, Set: c.kitSet})
	if events := c.do("4 07:00", GrindMany{Players: []inventory.Number{c.bo, c.kit}}); len(events) != 2 {
		t.Errorf("%d grinds were recorded", len(events))
	}
	c.quiet()
	c.do("4 09:00", GrindMany{Players: []inventory.Number{c.bo, c.kit, c.bo}})
	c.told("twice within a minute")
	c.flagged(c.runners[0], "two grinds 0 s apart")
}

// Of everybody who has steel on, one who can't be logged stops nobody else.
func TestGrindOfAllLogsWhomItCan(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.do("3 10:00", PutSetIn{Player: c.kit, Set: c.kitSet})
	c.do("4 06:00", ReportDamage{Piece: c.runners[1], Mode: "crack"})
	all := GrindMany{Players: []inventory.Number{c.bo, c.kit}, Any: true}
	outcome, err := all.Decide(&c.Ledger, Moment{when(t, "4 07:00"), theNow})
	if err != nil || len(outcome.Drafts) != 1 || len(outcome.Left) != 1 || outcome.Left[0].About != c.bo || !strings.Contains(outcome.Left[0].Cause.Error(), "damaged") {
		t.Errorf("%v: %+v", err, outcome)
	}
	events := c.do("4 07:00", all)
	if len(events) != 1 || events[0].Body.(*inventory.Ground).Player != c.kit {
		t.Errorf("%d grinds were recorded", len(events))
	}
	c.refuses("4 08:00", GrindMany{Players: []inventory.Number{c.bo}, Any: true}, "damaged")
	all.Each.Work = "polish"
	c.refuses("4 08:00", all, "polish")

	// who had nothing on at first is logged for what is left of the day
	c = openClubhouse(t)
	c.do("3 10:00", PutSetIn{Player: c.kit, Set: c.kitSet})
	c.putIn("4 10:00", c.setA)
	events = c.do("2025-11-04", GrindMany{Players: []inventory.Number{c.bo, c.kit}, Any: true})
	if len(events) != 2 || !events[0].Happened.Start.After(at(t, "4 10:00")) || events[1].Happened != when(t, "2025-11-04") {
		t.Errorf("logged %+v", events)
	}
}

func TestTwoMoreLeft(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.do("4 07:00", Grind{Player: c.bo, Passes: passes(5, 7)})
	two := 2
	c.do("4 07:00:30", Grind{Player: c.bo, More: true, Passes: inventory.Both[int]{Left: &two}})
	c.quiet()
	c.unflagged()
	c.wearOf(c.runners[0], 1, 7)
	c.wearOf(c.runners[1], 1, 7)
	c.refuses("4 07:01", Grind{Player: c.bo, More: true}, "how many more")
	c.do("4 08:00", TakeOut{Player: c.bo, Side: inventory.Left, Reason: "rotate"})
	c.refuses("4 08:10", Grind{Player: c.bo, More: true, Passes: inventory.Both[int]{Left: &two}}, "no steel was on that side")
}

// A change that is known by its month only is sorted by its start.
func TestGrindsAroundAVagueChange(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("1 09:00", c.setA)
	c.change("2025-12", c.setB, "low")
	if ground := c.grind("30 23:59"); ground.Set != c.setA {
		t.Errorf("before the month it went to %s", ground.Set.Short())
	}
	if ground := c.grind("2025-12-02 09:00"); ground.Set != c.setB {
		t.Errorf("in the month it went to %s", ground.Set.Short())
	}
	c.refuses("unknown", TakeOut{Player: c.bo, Reason: "low"}, "was changed after that time")
	c.refuses("unknown", PutSetIn{Player: c.bo, Set: c.setC}, "is on the left boot")
	spare := c.give(AddPair{c.bo, "spare"})
	c.refuses("unknown", PutSetIn{Player: c.bo, Set: c.setC, Pair: spare}, "was used after that time")
	stints := c.runner(c.runners[0]).Stints(theNow)
	if len(stints) != 1 || stints[0].Out.SayDay(theNow.Location()) != "Dec 2025" || stints[0].Out.Exact() {
		t.Errorf("stints %+v", stints)
	}
	c.unflagged()
}

func TestWhoIsSkating(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.do("4 10:00", PutSetIn{Player: c.kit, Set: c.kitSet})
	c.do("5 10:00", TakeOut{Player: c.bo, Reason: "rotate"})
	gone := true
	c.do("6 10:00", ChangePlayer{Player: c.kit, Gone: &gone})
	for time, want := range map[string][]inventory.Number{"2 09:00": nil, "3 10:00": {c.bo}, "4 10:00": {c.bo, c.kit}, "5 10:00": {c.kit}, "6 10:00": nil} {
		if got := standing.Skating(&c.Ledger, at(t, time)); !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", time, got, want)
		}
	}
}
