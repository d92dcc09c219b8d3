package deeds

import (
	"testing"

	"steeltally/inventory"
)

// undo gives an undo of events.
func undo(events ...[]inventory.Event) Undo {
	var all []inventory.Event
	for _, some := range events {
		all = append(all, some...)
	}
	return Undo{Events: all}
}

func TestUndoOfAChangeTakesBackBothHalves(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	change := c.do("4 12:00", ChangeSteel{TakeOut{Player: c.bo, Reason: "low", Heights: inventory.Both[millimetre]{Left: mm(9)}}, c.setB})
	c.refuses("5 09:00", undo(change[1:2]), "was changed since") // only what came off
	c.do("5 09:00", undo(change))
	c.on("5 09:00", c.runners[0], c.runners[1])
	c.stateOf("5 09:00", c.setB, inventory.Ready)
	if wear := c.runner(c.runners[0]).WearAt(theNow); wear.HeightLast != nil {
		t.Errorf("the height stayed: %+v", wear)
	}
	c.unflagged()
}

func TestUndoIsRefusedWhileSomethingStandsOnIt(t *testing.T) {
	c := openClubhouse(t)
	in := c.putIn("3 10:00", c.setA)
	c.change("4 12:00", c.setB, "low")
	c.refuses("5 09:00", undo(in), "was changed since")
	spare := c.give(AddPair{c.bo, "spare"})
	out := c.do("5 10:00", TakeOut{Player: c.bo, Reason: "rotate"})
	elsewhere := c.do("5 11:00", PutSetIn{Player: c.bo, Set: c.setB, Pair: spare})
	c.refuses("6 09:00", undo(out), "was changed since") // it would be on two pairs
	c.do("6 09:00", undo(elsewhere))
	c.do("6 09:01", undo(out))
	c.on("6 09:02", c.runners[2], c.runners[3])
	c.unflagged()
}

func TestUndoOfAnInSaysWhatStaysLogged(t *testing.T) {
	c := openClubhouse(t)
	in := c.putIn("3 10:00", c.setA)
	ground := c.do("4 07:00", Grind{Player: c.bo})
	c.do("5 07:00", Grind{Player: c.bo})
	c.do("5 09:00", undo(ground))
	c.quiet()
	c.do("5 10:00", undo(in))
	c.told("1 works since then stay logged on set A")
	c.wearOf(c.runners[0], 1, 5)
}

func TestUndoOfRivets(t *testing.T) {
	c := openClubhouse(t)
	spare := c.give(AddPair{c.bo, "spare"})
	on := c.do("2 09:00", RivetOn{Holder: c.spareLeft, Pair: spare})
	in := c.do("3 09:00", PutSetIn{Player: c.bo, Set: c.setC, Pair: spare})
	c.refuses("4 09:00", undo(on), "was changed since")
	off := c.do("5 09:00", RivetOff{c.spareLeft})
	c.refuses("5 10:00", undo(in), "was changed since")
	third := c.give(AddPair{c.bo, "third"})
	again := c.do("6 09:00", RivetOn{Holder: c.spareLeft, Pair: third})
	c.refuses("6 10:00", undo(off), "was changed since")
	c.do("7 09:00", undo(again))
	c.do("7 09:01", undo(off))
	c.do("7 09:02", undo(in))
	c.do("7 09:03", undo(on))
	if boot := c.holder(c.spareLeft).BootAt(theNow); boot.Pair != 0 {
		t.Errorf("the holder hangs on %s", boot.Pair.Short())
	}
	c.stateOf("8 09:00", c.runners[4], inventory.Ready)
	c.unflagged()
}

func TestUndoOfAGrindAndAHeight(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	ground := c.do("4 07:00", Grind{Player: c.bo})
	measured := c.do("4 08:00", MeasureSteel{Heights: []inventory.Height{{Runner: c.runners[0], Middle: mm(11.8)}}})
	c.change("4 12:00", c.setB, "low")
	c.do("5 09:00", undo(ground))
	c.do("5 09:00", undo(measured))
	c.wearOf(c.runners[0], 0, 0)
	if len(c.runner(c.runners[0]).Readings) != 0 {
		t.Error("the height stayed")
	}
	c.refuses("5 09:00", Undo{}, "nothing to undo")
}

func TestUndoOfWhatExists(t *testing.T) {
	c := openClubhouse(t)
	more := c.do("2 09:00", StockIn{Piece: inventory.KindRunner, Model: "Model R", Size: 280, Count: 2})
	pieces := more[0].Body.(*inventory.StockedIn).Pieces
	made := c.do("2 09:10", MakeSet{Player: c.bo, Left: pieces[0], Right: pieces[1]})
	c.refuses("3 09:00", undo(more), "was used since")
	in := c.do("3 10:00", PutSetIn{Player: c.bo, Set: given(t, made)})
	c.refuses("3 11:00", undo(made), "was used since")
	c.do("4 09:00", undo(in))
	c.do("4 09:01", undo(made))
	c.do("4 09:02", undo(more))
	c.refuses("5 09:00", MakeSet{Player: c.bo, Left: pieces[0], Right: pieces[1]}, "not in this book")
	c.refuses("5 09:00", PutSetIn{Player: c.bo, Set: given(t, made)}, "not in this book")
	c.refuses("5 09:00", PutAt{Pieces: pieces, Place: inventory.Place{Name: "trunk 3"}}, "not a piece in this book")
	if n := c.stock(inventory.KindRunner, "Model R", "", 1)[0]; n.Running() != pieces[1].Running()+1 {
		t.Errorf("after %s comes %s: a number was given again", pieces[1].Short(), n.Short())
	}
	if n := c.match(c.bo, c.runners[6], c.runners[7]); n.Running() != given(t, made).Running()+1 {
		t.Errorf("after %s comes %s: a number was given again", given(t, made).Short(), n.Short())
	}
	c.unflagged()
}

func TestUndoOfSteelThatWasMeasuredOrDamaged(t *testing.T) {
	c := openClubhouse(t)
	one := c.do("2 09:00", StockIn{Piece: inventory.KindRunner, Model: "Model R", Size: 280, Count: 1})
	n := given(t, one)
	measured := c.do("2 10:00", MeasureSteel{Heights: []inventory.Height{{Runner: n, Middle: mm(11.8)}}})
	c.refuses("3 09:00", undo(one), "was used since")
	c.do("3 09:00", undo(measured))
	damaged := c.do("3 10:00", ReportDamage{Piece: n, Mode: "chip"})
	c.refuses("3 11:00", undo(one), "was used since")
	c.do("3 12:00", undo(one, damaged)) // together
}

func TestUndoOfPeople(t *testing.T) {
	c := openClubhouse(t)
	player := c.do("2 09:00", AddPlayer{Name: "Ida Sund", Position: "forward", Sweater: 8})
	ida := given(t, player)
	pair := c.do("2 09:10", AddPair{ida, "first"})
	c.refuses("3 09:00", undo(player), "was used since")
	set := c.do("2 09:20", MakeSet{Player: ida, Left: c.runners[6], Right: c.runners[7]})
	in := c.do("2 09:30", PutSetIn{Player: ida, Set: given(t, set)})
	c.refuses("3 09:00", undo(pair), "was used since")
	sweater := 9
	c.do("3 10:00", ChangePlayer{Player: ida, Sweater: &sweater})
	c.do("4 09:00", undo(in))
	c.do("4 09:00", undo(pair))
	c.do("4 09:00", undo(set))
	c.refuses("4 09:10", AddPair{given(t, pair), "spare"}, "is a pair, not a player")
	c.do("4 09:20", undo(player)) // the change of sweater stays, and with it the player
	if p, err := inventory.FindPlayer(&c.Ledger, "9", theNow); err != nil || p.Number != ida {
		t.Errorf("got %v, %v", p, err)
	}
}

func TestUndoOfTheClubIsRefused(t *testing.T) {
	d := newDesk(t)
	founded := d.do(opening, FoundClub{Name: "Skarn Harbour Terns", Zone: "UTC"})
	d.refuses("2 09:00", undo(founded), "can't be undone")
	d.refuses("2 09:00", FoundClub{Name: "Another"}, "belongs to Skarn Harbour Terns")
}

func TestUndoOfAnUndo(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	ground := c.do("4 07:00", Grind{Player: c.bo})
	undone := c.do("4 08:00", undo(ground))
	c.wearOf(c.runners[0], 0, 0)
	redone := c.do("4 08:10", undo(undone))
	c.wearOf(c.runners[0], 1, 5)
	c.refuses("4 08:20", undo(redone), "brought entries back")
	c.do("4 08:30", undo(ground)) // it stands again, so it can be undone itself
	c.wearOf(c.runners[0], 0, 0)
}

func TestUndoOfAnUndoIsRefusedOnceThePieceIsGone(t *testing.T) {
	c := openClubhouse(t)
	more := c.do("2 09:00", StockIn{Piece: inventory.KindRunner, Model: "Model R", Size: 280, Count: 1})
	damaged := c.do("2 10:00", ReportDamage{Piece: given(t, more), Mode: "chip"})
	first := c.do("3 09:00", undo(damaged))
	second := c.do("3 10:00", undo(more))
	c.refuses("3 11:00", undo(first), "was taken out of the record since")
	c.do("3 12:00", undo(second))
	c.do("3 13:00", undo(first))
	if got := len(c.runner(given(t, more)).Damages); got != 1 {
		t.Errorf("it has %d damages", got)
	}
}

func TestUndoOfAnUndoIsRefusedOnceTheSteelMovedOn(t *testing.T) {
	c := openClubhouse(t)
	in := c.putIn("3 10:00", c.setA)
	undone := c.do("4 08:00", undo(in))
	b := c.putIn("4 09:00", c.setB)
	c.refuses("4 10:00", undo(undone), "was changed since")
	c.do("4 11:00", undo(b))
	c.on("4 12:00", 0, 0)
	c.unflagged()
}

func TestUndoneWorkStaysVisible(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	ground := c.do("4 07:00", Grind{Player: c.bo})
	undone := c.do("4 08:00", Undo{Events: ground, Words: "it was 71"})
	voided := inventory.Voided(c.Events())
	if by := voided[ground[0].Key]; by != undone[0].Key || len(voided) != 1 {
		t.Errorf("voided: %v", voided)
	}
	line := inventory.Teller{View: &c.Ledger}.Line(&undone[0])
	if line != "correction, 1 taken back: it was 71" {
		t.Errorf("it reads %q", line)
	}
}
