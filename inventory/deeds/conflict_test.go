package deeds

import (
	"fmt"
	"slices"
	"testing"

	"steeltally/inventory"
)

// twoStations is one clubhouse with a second station that wrote nothing yet.
func twoStations(t *testing.T) (*clubhouse, *desk) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	return c, c.second()
}

func (c *clubhouse) allFlagged(flagged ...inventory.Number) {
	c.t.Helper()
	for ref := range c.States() {
		n := ref.Number()
		if n == 0 {
			continue
		}
		if has := len(c.flags(n)) > 0; has != slices.Contains(flagged, n) {
			c.t.Errorf("%s: flags %q", n.Short(), c.flags(n))
		}
	}
}

func TestTwoStationsChangeOnePair(t *testing.T) {
	c, other := twoStations(t)
	mine := c.change("4 12:00", c.setB, "rotate")
	theirs := other.do("4 12:05", ChangeSteel{TakeOut{Player: c.bo, Reason: "rotate"}, c.setC})
	c.merge(other)
	flagged := []inventory.Number{c.pair, c.left, c.right, c.runners[0], c.runners[1]}
	c.allFlagged(flagged...)
	c.on("4 13:00", c.runners[4], c.runners[5])
	c.refuses("4 14:00", TakeRunnerOut{Runner: c.runners[2], Reason: "low"}, "is not what the record has on")
	c.refuses("4 14:00", undo(mine[:1]), "was changed since") // half of it makes it no better
	c.do("5 09:00", undo(mine))                               // theirs was right
	c.allFlagged()
	c.on("5 10:00", c.runners[4], c.runners[5])
	c.stateOf("5 10:00", c.setB, inventory.Ready)
	if len(theirs) != 2 {
		t.Error("their change is not whole")
	}
}

func TestTheOtherStationIsWrongAsWell(t *testing.T) {
	c, other := twoStations(t)
	c.change("4 12:00", c.setB, "rotate")
	theirs := other.do("4 12:05", ChangeSteel{TakeOut{Player: c.bo, Reason: "rotate"}, c.setC})
	c.merge(other)
	c.do("5 09:00", undo(theirs)) // mine was right
	c.allFlagged()
	c.on("5 10:00", c.runners[2], c.runners[3])
}

func TestBothStationsLogOneGrind(t *testing.T) {
	c, other := twoStations(t)
	mine := c.do("4 07:00", Grind{Player: c.bo})
	theirs := other.do("4 07:03", Grind{Player: c.bo, Passes: passes(6, 6)})
	c.merge(other)
	c.allFlagged(c.runners[0], c.runners[1])
	c.flagged(c.runners[0], "two stations, or two copies of the book, logged a grind within ten minutes")
	c.wearOf(c.runners[0], 2, 11) // both claims are kept
	keep := KeepAll{Events: append(mine, theirs...), Words: "he came twice"}
	kept := c.do("5 09:00", keep)
	c.allFlagged()
	c.wearOf(c.runners[0], 2, 11)
	c.do("5 09:10", undo(kept))
	c.allFlagged(c.runners[0], c.runners[1])
	c.do("5 09:20", undo(theirs))
	c.allFlagged()
	c.wearOf(c.runners[0], 1, 5)
	c.refuses("5 09:30", KeepAll{}, "name the entries")
	if line := (inventory.Teller{View: &c.Ledger}).Line(&kept[0]); line != "both are right: he came twice" {
		t.Errorf("it reads %q", line)
	}
}

func TestGrindsOfTwoStationsLongApartAreNoConflict(t *testing.T) {
	c, other := twoStations(t)
	c.do("4 07:00", Grind{Player: c.bo})
	other.do("4 07:10", Grind{Player: c.bo})
	c.merge(other)
	c.allFlagged()
}

func TestOneNumberIsGivenTwice(t *testing.T) {
	c, other := twoStations(t) // both with station digit 1, against the rule
	mine := c.do("4 09:00", StockIn{Piece: inventory.KindRunner, Model: "Model R", Size: 280, Count: 1})
	theirs := other.do("4 09:00", StockIn{Piece: inventory.KindRunner, Model: "Model R", Size: 288, Count: 1})
	pair := c.do("4 09:00", AddPair{c.bo, "spare"})
	theirPair := other.do("4 09:00", AddPair{c.kit, "spare"})
	set := c.do("4 09:00", MakeSet{Player: c.bo, Left: c.runners[6], Right: given(t, mine)})
	theirSet := other.do("4 09:00", MakeSet{Player: c.kit, Left: given(t, theirs), Right: c.runners[7]})
	for i, both := range [][2][]inventory.Event{{mine, theirs}, {pair, theirPair}, {set, theirSet}} {
		if given(t, both[0]) != given(t, both[1]) {
			t.Fatalf("case %d: %s and %s do not clash", i, given(t, both[0]).Short(), given(t, both[1]).Short())
		}
	}
	c.merge(other)
	c.allFlagged(given(t, mine), given(t, pair), given(t, set))
	first := c.runner(given(t, mine))
	if first.Size != 280 || c.pairOf(given(t, pair)).Player != c.bo || c.set(given(t, set)).Player != c.bo {
		t.Error("the first claim does not stand")
	}
	for _, wrong := range [][]inventory.Event{theirSet, theirPair, theirs} {
		c.do("5 09:00", undo(wrong))
	}
	c.allFlagged()
	if n := c.stock(inventory.KindRunner, "Model R", "", 1)[0]; n.Running() != given(t, mine).Running()+1 {
		t.Errorf("the next number is %s", n.Short())
	}
}

func TestOneTakesItOffTheOtherRivets(t *testing.T) {
	c, other := twoStations(t)
	c.do("4 12:00", TakeOut{Player: c.bo, Reason: "low"})
	c.do("4 12:10", RivetOff{c.left})
	theirs := other.do("4 12:05", RivetOff{c.left}) // with the steel in it
	c.merge(other)
	c.allFlagged(c.pair, c.left, c.runners[0])
	c.stateOf("4 13:00", c.runners[0], inventory.InHolder)
	c.do("5 09:00", undo(theirs))
	c.allFlagged()
	c.stateOf("5 09:00", c.runners[0], inventory.Removed)
}

func TestSteelGoesIntoAHolderThatIsOff(t *testing.T) {
	c, other := twoStations(t)
	spare := given(t, c.do("3 11:00", AddPair{c.bo, "spare"}))
	c.do("3 11:10", RivetOn{Holder: c.spareLeft, Pair: spare})
	c.merge(other)
	c.do("4 12:00", RivetOff{c.spareLeft})
	other.do("4 12:10", PutSetIn{Player: c.bo, Set: c.setB, Pair: spare})
	c.merge(other)
	c.flagged(spare, "went into another holder than was on")
	c, other = twoStations(t)
	spare = given(t, c.do("3 11:00", AddPair{c.bo, "spare"}))
	c.do("3 11:10", RivetOn{Holder: c.spareLeft, Pair: spare})
	c.merge(other)
	c.do("4 12:10", RivetOff{c.spareLeft})
	other.do("4 12:00", PutSetIn{Player: c.bo, Set: c.setB, Pair: spare})
	c.merge(other)
	c.flagged(spare, "nothing says what became of the steel")
}

func TestASetGoesOnTwoPairs(t *testing.T) {
	c := openClubhouse(t)
	first, second := c.give(AddPair{c.bo, "spare"}), c.give(AddPair{c.bo, "third"}) // with no holders recorded
	other := c.second()
	c.do("4 12:00", PutSetIn{Player: c.bo, Set: c.setB, Pair: first})
	other.do("4 13:00", PutSetIn{Player: c.bo, Set: c.setB, Pair: second})
	c.merge(other)
	c.flagged(c.runners[2], "put on twice")
}

// An entry that is undone at one station while the other station builds on it.
func TestUndoneHereBuiltOnThere(t *testing.T) {
	c := openClubhouse(t)
	in := c.putIn("3 10:00", c.setA)
	other := c.second()
	c.do("3 11:00", undo(in))
	other.do("4 12:00", TakeOut{Player: c.bo, Reason: "low"})
	c.merge(other)
	c.flagged(c.runners[0], "nothing says that it was on")
	c.stateOf("4 12:00", c.runners[0], inventory.Removed)
	if flags := c.flags(c.pair); len(flags) != 2 { // left and right
		t.Errorf("flags of the pair: %q", flags)
	}
}

// Two books merge by set union, in any order, any number of times.
func TestMergedBooksAreOne(t *testing.T) {
	c, other := twoStations(t)
	c.change("4 12:00", c.setB, "rotate")
	other.do("4 12:05", ChangeSteel{TakeOut{Player: c.bo, Reason: "rotate"}, c.setC})
	other.do("4 07:00", Grind{Player: c.bo})
	c.merge(other)
	c.merge(other)
	if fmt.Sprint(c.Events()) == "" || len(c.Events()) != len(other.Events()) || snapshot(t, &c.Ledger) != snapshot(t, &other.Ledger) {
		t.Error("the two books are not one")
	}
}

// A copied book gives the numbers that the other gives, too: two players or two trunks
// that got one number are found.
func TestTwoStationsGiveOneNumber(t *testing.T) {
	c, other := twoStations(t)
	add := func(d *desk, name string) inventory.Number {
		return d.do("4 12:00", AddPlayer{Name: name, Position: "forward"})[0].Body.(*inventory.PlayerNoted).Player
	}
	trunk := func(d *desk, name string) inventory.Number {
		return d.do("4 12:00", NoteContainer{Container: inventory.KindTrunk, Name: name})[0].Body.(*inventory.ContainerNoted).Container
	}
	player, box := add(c.desk, "Ulf Ravnsborg"), trunk(c.desk, "steel")
	if theirs, theirBox := add(other, "Per Holmvik"), trunk(other, "boots"); theirs != player || theirBox != box {
		t.Fatalf("%s and %s, %s and %s", player, theirs, box, theirBox)
	}
	c.merge(other)
	c.flagged(player, "two stations call this player differently")
	c.flagged(box, "given to two trunks")
	name := "Ulf Ravnsborg-Holm"
	c.do("5 09:00", ChangePlayer{Player: c.bo, Name: &name})
	if flags := c.flags(c.bo); len(flags) != 0 {
		t.Errorf("a name that is changed is flagged: %q", flags)
	}
}
