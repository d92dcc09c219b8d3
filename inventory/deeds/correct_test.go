package deeds

import (
	"errors"
	"strings"
	"testing"

	"steeltally/inventory"
)

func TestTheLastTwoWereB(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	first := c.do("4 07:00", Grind{Player: c.bo})
	second := c.do("5 07:00", Grind{Player: c.bo, Passes: passes(6, 5)})
	third := c.do("6 07:00", Grind{Player: c.bo})
	events := c.do("6 09:00", OtherSet{Grinds: append(second, third...), Set: c.setB})
	if len(events) != 5 { // correction, A off, B on, two grinds
		t.Errorf("%d events", len(events))
	}
	c.wearOf(c.runners[0], 1, 5)
	c.wearOf(c.runners[2], 2, 11)
	c.wearOf(c.runners[3], 2, 10)
	c.on("4 12:00", c.runners[0], c.runners[1])
	c.on("5 07:00", c.runners[2], c.runners[3])
	c.stateOf("6 10:00", c.setA, inventory.Ready)
	c.unflagged()
	c.do("6 11:00", undo(events)) // the correction was wrong
	c.wearOf(c.runners[0], 3, 16)
	c.on("6 12:00", c.runners[0], c.runners[1])
	c.refuses("6 12:00", OtherSet{Grinds: first, Set: c.setA}, "is on set A already")
	c.refuses("6 12:00", OtherSet{Grinds: first, Set: c.kitSet}, "is not that player's")
	c.refuses("6 12:00", OtherSet{Set: c.setB}, "no grind to correct")
	c.refuses("6 12:00", OtherSet{Grinds: events[:1], Set: c.setB}, "is no grind")
	c.unflagged()
}

func TestOnlyOneOfTheLastWasB(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	first := c.do("4 07:00", Grind{Player: c.bo})
	c.do("5 07:00", Grind{Player: c.bo})
	c.do("6 09:00", OtherSet{Grinds: first, Set: c.setB})
	c.told("1 grinds since then are logged on the old set")
}

// A set that was on another pair: that pair was ground, or the set had gone over. Nobody
// guesses which.
func TestTheLastWasASetOfAnotherPair(t *testing.T) {
	for _, goneOver := range []bool{false, true} {
		c := openClubhouse(t)
		spare, _, _ := c.equip(c.bo, "spare", "Model H")
		c.putIn("3 10:00", c.setA)
		c.do("3 10:00", PutSetIn{Player: c.bo, Set: c.setB, Pair: spare})
		last := c.do("5 07:00", Grind{Player: c.bo})
		_, err := OtherSet{Grinds: last, Set: c.setB}.Decide(&c.Ledger, Moment{when(t, "6 09:00"), theNow})
		which := new(WhichPairError)
		if !errors.As(err, &which) || which.Pairs != [2]inventory.Number{spare, c.pair} || !strings.Contains(which.Hint, "--pair spare: the spare pair was ground") {
			t.Fatalf("%v, %+v", err, which)
		}
		pair, on := spare, [2]inventory.Number{c.runners[0], c.runners[1]}
		if goneOver {
			pair, on = c.pair, [2]inventory.Number{c.runners[2], c.runners[3]}
		}
		events := c.do("6 09:00", OtherSet{Grinds: last, Set: c.setB, Pair: pair})
		if work := events[len(events)-1].Body.(*inventory.Ground); work.Pair != pair || work.Set != c.setB {
			t.Errorf("gone over %t: %+v", goneOver, work)
		}
		c.on("6 10:00", on[0], on[1])
		if left := c.pairOf(spare).SetAt(at(t, "6 10:00")); (left == 0) != goneOver {
			t.Errorf("gone over %t: on the spare pair is %s", goneOver, left.Short())
		}
		c.wearOf(c.runners[0], 0, 0)
		c.wearOf(c.runners[2], 1, 5)
		c.unflagged()
		c.do("6 11:00", undo(events))
		c.on("6 12:00", c.runners[0], c.runners[1])
		c.unflagged()
	}
}

func TestGrindWasOnTheOtherSetThatIsOnNow(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.change("5 12:00", c.setB, "rotate")
	inHand := c.do("6 07:00", Grind{Set: c.setA})
	events := c.do("6 09:00", OtherSet{Grinds: inHand, Set: c.setB})
	if len(events) != 2 {
		t.Errorf("B was on, yet there are %d events", len(events))
	}
	c.wearOf(c.runners[0], 0, 0)
	c.wearOf(c.runners[2], 1, 5)
	late := c.do("5 07:00", Grind{Player: c.bo})
	c.refuses("6 10:00", OtherSet{Grinds: late, Set: c.setB}, "after that time")
}

func TestItWasAnotherPlayer(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.do("3 10:00", PutSetIn{Player: c.kit, Set: c.kitSet})
	grinds := c.do("4 07:00", Grind{Player: c.bo, Passes: passes(6, 5)})
	grinds = append(grinds, c.do("4 19:00", Grind{Player: c.bo, Unknown: true})...)
	events := c.do("5 09:00", OtherPlayer{Grinds: grinds, Player: c.kit})
	if len(events) != 3 {
		t.Errorf("%d events", len(events))
	}
	c.wearOf(c.runners[0], 0, 0)
	c.wearOf(c.kitRunners[0], 2, 6)
	if wear := c.runner(c.kitRunners[0]).WearAt(theNow); wear.UnknownWorks != 1 {
		t.Errorf("%+v", wear)
	}
	if hollow := events[1].Body.(*inventory.Ground).Hollow; hollow != nil {
		t.Errorf("the goalkeeper got the other player's hollow, %s", hollow)
	}
	c.unflagged()
	nobody, _ := inventory.NewNumber(inventory.KindPlayer, 1, 99)
	c.refuses("5 09:00", OtherPlayer{Grinds: grinds, Player: nobody}, "not in this book")
}
