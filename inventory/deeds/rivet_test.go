package deeds

import (
	"testing"

	"steeltally/inventory"
)

func TestHolderOnABoot(t *testing.T) {
	c := openClubhouse(t)
	c.refuses("4 09:00", RivetOn{Holder: c.spareLeft, Pair: c.pair}, "has holder")
	c.refuses("4 09:00", RivetOn{Holder: c.left, Pair: c.kitPair}, "is on the left boot of")
	c.refuses("4 09:00", RivetOn{Holder: c.spareLeft, Pair: c.pair, Side: inventory.Right}, "is a left holder")
	c.refuses("4 09:00", RivetOn{Holder: c.runners[0], Pair: c.pair}, "is a runner, not a holder")
	c.refuses("4 09:00", RivetOff{c.spareLeft}, "is on no boot")
	c.do("4 09:00", RivetOff{c.left})
	c.quiet()
	c.do("4 09:10", RivetOn{Holder: c.spareLeft, Pair: c.pair})
	if got := c.pairOf(c.pair).HolderAt(inventory.Left, theNow); got != c.spareLeft {
		t.Errorf("on the left boot is %s", got.Short())
	}
	c.unflagged()
}

func TestHolderComesOffWithTheRunnerInIt(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.do("4 09:00", RivetOff{c.left})
	c.told("is still in it")
	c.on("4 09:00", 0, c.runners[1])
	c.stateOf("4 09:00", c.runners[0], inventory.InHolder)
	c.stateOf("4 09:00", c.setA, inventory.On) // its other half is skated on
	if got := c.holder(c.left).RunnerAt(theNow); got != c.runners[0] {
		t.Errorf("in the holder is %s", got.Short())
	}
	spare := c.give(AddPair{c.bo, "spare"})
	c.do("5 09:00", RivetOn{Holder: c.left, Pair: spare})
	c.stateOf("5 09:00", c.runners[0], inventory.On)
	if seat := c.pairOf(spare).SeatAt(inventory.Left, theNow); seat.Runner != c.runners[0] || seat.Set != c.setA {
		t.Errorf("on the spare pair is %+v", seat)
	}
	if stints := c.runner(c.runners[0]).Stints(theNow); len(stints) != 1 || !stints[0].Open || stints[0].Pair != spare {
		t.Errorf("it never left its holder, but its stints are %+v", stints)
	}
	c.unflagged()
}

func TestRunnerComesOutOfAHolderOnNoBoot(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.do("4 09:00", RivetOff{c.left})
	c.do("4 10:00", TakeRunnerOut{Runner: c.runners[0], Reason: "low", Height: mm(9)})
	c.stateOf("4 10:00", c.runners[0], inventory.Removed)
	if got := c.holder(c.left).RunnerAt(theNow); got != 0 {
		t.Errorf("in the holder is still %s", got.Short())
	}
	c.do("4 11:00", RivetOn{Holder: c.left, Pair: c.pair})
	c.on("4 11:00", 0, c.runners[1])
	c.unflagged()
}

func TestNothingIsWrittenBeforeWhatTheHolderDidSince(t *testing.T) {
	c := openClubhouse(t)
	spare := c.give(AddPair{c.bo, "spare"})
	c.do("5 09:00", RivetOn{Holder: c.spareLeft, Pair: spare})
	third := c.give(AddPair{c.bo, "third"})
	c.refuses("4 09:00", RivetOn{Holder: c.spareLeft, Pair: third}, "after that time")
	c.putIn("3 10:00", c.setA)
	c.do("6 09:00", RivetOff{c.left})
	c.do("8 09:00", RivetOn{Holder: c.left, Pair: third})
	c.refuses("7 09:00", TakeRunnerOut{Runner: c.runners[0], Reason: "low"}, "after that time")
	c.unflagged()
}

func TestDamagedSteelComesAlongOnNoBoot(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.do("4 09:00", RivetOff{c.left})
	c.do("4 10:00", ReportDamage{Piece: c.runners[0], Mode: "crack"})
	c.refuses("4 11:00", RivetOn{Holder: c.left, Pair: c.pair}, "do not skate on it")
	c.do("4 12:00", ReportDamage{Piece: c.spareLeft, Mode: "crack", Zone: "rear-tower"})
	c.refuses("4 13:00", RivetOn{Holder: c.spareLeft, Pair: c.pair}, "do not skate on it")
}

// Steel in a boot whose holder nobody entered must not be lost behind a holder that is
// entered later.
func TestHolderEnteredAfterItsSteel(t *testing.T) {
	c := openClubhouse(t)
	spare := c.give(AddPair{c.bo, "spare"})
	c.do("3 10:00", PutSetIn{Player: c.bo, Set: c.setB, Pair: spare})
	c.told("no holder is recorded")
	c.refuses("4 10:00", RivetOn{Holder: c.spareLeft, Pair: spare}, "in a holder that nobody entered")
}

// The usual emergency: the holder of the spare pair goes on the first pair with the
// steel in it, so that two sets are on one pair.
func TestHolderWithSteelFromAnotherPair(t *testing.T) {
	c := openClubhouse(t)
	spare := c.give(AddPair{c.bo, "spare"})
	c.do("2 09:00", RivetOn{Holder: c.spareLeft, Pair: spare})
	c.putIn("3 10:00", c.setA)
	c.do("3 10:00", PutSetIn{Player: c.bo, Set: c.setB, Pair: spare})
	c.do("4 19:00", RivetOff{c.spareLeft})
	c.do("4 19:01", RivetOff{c.left})
	c.do("4 19:02", RivetOn{Holder: c.spareLeft, Pair: c.pair})
	c.on("4 19:02", c.runners[2], c.runners[1])
	ground := c.grind("4 19:05")
	if ground.Left.Runner != c.runners[2] || ground.Right.Runner != c.runners[1] {
		t.Errorf("ground %+v", ground)
	}
	c.do("5 09:00", TakeOut{Player: c.bo, Reason: "rotate"})
	c.on("5 09:00", 0, 0)
	c.stateOf("5 09:00", c.runners[2], inventory.Ready)
	c.stateOf("5 09:00", c.runners[1], inventory.Ready)
	for n, set := range map[inventory.Number]inventory.Number{c.runners[2]: c.setB, c.runners[1]: c.setA} {
		if got := c.runner(n).SetAt(theNow); got != set {
			t.Errorf("%s belongs to %s, want %s", n.Short(), got.Short(), set.Short())
		}
	}
	c.unflagged()
}
