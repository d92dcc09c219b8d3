package deeds

import (
	"slices"
	"testing"

	"steeltally/inventory"
)

// swapped gives the deed that says that sets were swapped since a time, with the sets'
// standing events as a book would find them; one alone is named.
func (c *clubhouse) swapped(since string, sets ...inventory.Number) SwapSides {
	deed := SwapSides{Since: when(c.t, since), Named: len(sets) == 1}
	voided := inventory.Voided(c.Events())
	for _, set := range sets {
		history := SetHistory{Set: set}
		for _, e := range c.Events() {
			if _, isVoid := voided[e.Key]; !isVoid && slices.Contains(inventory.TouchedOnce(e), inventory.RefOf(set)) {
				history.Events = append(history.Events, *e)
			}
		}
		deed.Sets = append(deed.Sets, history)
	}
	return deed
}

func TestSwappedSinceADayAfterItWentOn(t *testing.T) {
	c := openClubhouse(t)
	left, right := c.runners[0], c.runners[1]
	c.putIn("3 10:00", c.setA)
	c.do("3 18:00", Grind{Player: c.bo, Passes: passes(4, 5)})
	c.do("5 07:00", Grind{Player: c.bo, Passes: passes(6, 7)})
	c.do("5 08:00", MeasureSteel{Player: c.bo, Set: c.setA, Heights: []inventory.Height{{Runner: left, Side: inventory.Left, Middle: mm(11.5)}}})
	c.do("6 09:00", c.swapped("4 12:00", c.setA))
	c.wearOf(left, 2, 4+7)
	c.wearOf(right, 2, 5+6)
	c.on("4 11:00", left, right)
	c.on("4 12:00", right, left)
	c.on("7 12:00", right, left)
	if n := len(c.runner(right).Readings); n != 1 || len(c.runner(left).Readings) != 0 {
		t.Error("the height is on the wrong runner")
	}
	if side := c.runner(left).SideAt(theNow); side != inventory.Right {
		t.Errorf("the left one is now %s", side)
	}
	if set := c.set(c.setA); set.Left != right || set.Right != left || set.Since != when(t, opening) {
		t.Errorf("the set is %+v", set)
	}
	c.change("8 12:00", c.setB, "rotate")
	c.change("9 12:00", c.setA, "rotate")
	c.on("9 12:00", right, left)
	c.unflagged()
}

func TestSwappedSinceADayBeforeItWentOn(t *testing.T) {
	c := openClubhouse(t)
	left, right := c.runners[0], c.runners[1]
	c.putIn("3 10:00", c.setA)
	c.do("3 18:00", Grind{Player: c.bo, Passes: passes(4, 5)})
	c.do("6 09:00", c.swapped("2 12:00", c.setA))
	c.wearOf(left, 1, 5)
	c.on("3 10:00", right, left)
	if order := c.set(c.setA).Order(theNow); order != 1 {
		t.Errorf("the set's order is %d", order)
	}
	if stints := c.runner(left).Stints(theNow); len(stints) != 1 || stints[0].Side != inventory.Right {
		t.Errorf("stints %+v", stints)
	}
	c.unflagged()
}

// A change of steel takes one set off and puts another on at one instant: what came off
// is noted anew, and must not come to stand behind what went on.
func TestSwappedAlthoughItCameOffSince(t *testing.T) {
	c := openClubhouse(t)
	left, right := c.runners[0], c.runners[1]
	c.putIn("3 10:00", c.setA)
	c.change("5 12:00", c.setB, "rotate")
	c.do("6 09:00", c.swapped("4 00:00", c.setA))
	c.on("4 12:00", right, left)
	c.on("5 12:00", c.runners[2], c.runners[3])
	c.on("7 12:00", c.runners[2], c.runners[3])
	if got := c.holder(c.left).RunnerAt(theNow); got != c.runners[2] {
		t.Errorf("in the left holder is %s", got.Short())
	}
	c.stateOf("7 12:00", c.setA, inventory.Ready)
	c.unflagged()
	c.do("8 12:00", TakeOut{Player: c.bo, Reason: "low"})
	c.on("8 12:00", 0, 0)
}

// Off by the very instant from which it was swapped, or on twice since.
func TestSwappedAtTheInstantOfAChange(t *testing.T) {
	for _, since := range []string{"5 12:00", "4 00:00", "3 10:00", "2 00:00", "7 12:00"} {
		c := openClubhouse(t)
		c.putIn("3 10:00", c.setA)
		c.change("5 12:00", c.setB, "rotate")
		c.change("7 12:00", c.setA, "rotate")
		c.change("9 12:00", c.setC, "rotate")
		c.do("10 09:00", c.swapped(since, c.setA))
		c.on("10 09:00", c.runners[4], c.runners[5])
		c.on("6 12:00", c.runners[2], c.runners[3])
		c.on("8 12:00", c.runners[1], c.runners[0])
		c.unflagged()
		if t.Failed() {
			t.Fatalf("swapped since %s", since)
		}
	}
}

func TestSwappedThatNeverWas(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.refuses("6 09:00", c.swapped("2026-02-01", c.setA), "in the future")
	c.refuses("6 09:00", c.swapped("2 09:00", c.pair), "is a pair, not a set")
	c.do("4 09:00", RivetOff{c.left})
	c.refuses("6 09:00", c.swapped("3 12:00", c.setA), "was riveted")
	c.refuses("6 09:00", c.swapped("5 12:00", c.setA), "only one runner")
}

func TestSwapOfASwapIsAsBefore(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.do("5 07:00", Grind{Player: c.bo, Passes: passes(6, 7)})
	c.do("6 09:00", c.swapped("4 12:00", c.setA))
	c.do("6 10:00", c.swapped("4 12:00", c.setA))
	c.wearOf(c.runners[0], 1, 6)
	c.on("7 09:00", c.runners[0], c.runners[1])
	c.unflagged()

	c = openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.do("5 07:00", Grind{Player: c.bo, Passes: passes(6, 7)})
	first := c.do("6 09:00", c.swapped("4 12:00", c.setA))
	c.do("6 10:00", undo(first))
	c.wearOf(c.runners[0], 1, 6)
	c.on("7 09:00", c.runners[0], c.runners[1])
	if set := c.set(c.setA); set.Left != c.runners[0] {
		t.Error("the set is still swapped")
	}
	c.unflagged()
}

// A player's steel was changed since: what was on before and after is exchanged, and what
// was neither on nor ground is no matter; what can't be exchanged is named and left.
func TestSwappedGoesThroughEverySet(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.do("4 13:00", Grind{Player: c.bo, Passes: passes(6, 7)})
	c.change("5 12:00", c.setB, "rotate")
	c.do("5 13:00", Grind{Player: c.bo, Passes: passes(3, 2)})
	events := c.do("6 09:00", c.swapped("4 12:00", c.setA, c.setB, c.setC))
	c.told("sides exchanged of set A " + c.setA.Short() + ", set B " + c.setB.Short())
	c.on("4 14:00", c.runners[1], c.runners[0])
	c.on("6 12:00", c.runners[3], c.runners[2])
	c.wearOf(c.runners[0], 1, 7)
	c.wearOf(c.runners[3], 1, 3)
	if set := c.set(c.setC); set.Left != c.runners[4] {
		t.Error("a set that lay there all the time was exchanged")
	}
	c.unflagged()
	c.do("6 10:00", undo(events))
	c.on("4 14:00", c.runners[0], c.runners[1])
	c.on("6 12:00", c.runners[2], c.runners[3])
	c.wearOf(c.runners[3], 1, 2)
	c.unflagged()

	c.do("7 09:00", RivetOff{c.left})
	c.do("8 09:00", c.swapped("4 12:00", c.setA, c.setB))
	c.told("set B " + c.setB.Short() + " is left as it was: a holder was riveted")
	c.on("4 14:00", c.runners[1], c.runners[0])
	c.refuses("9 09:00", c.swapped("5 18:00", c.setA, c.setB), "a holder was riveted")
	c.refuses("9 09:00", c.swapped("5 18:00", c.setC, c.setA), "no set was on or worked on")
}
