package deeds

import (
	"strings"
	"testing"

	"steeltally/inventory"
)

func TestStockThatCannotBe(t *testing.T) {
	c := openClubhouse(t)
	good := StockIn{Piece: inventory.KindRunner, Model: "Model R", Size: 280, Count: 1}
	for reason, spoil := range map[string]func(*StockIn){
		"model's name is empty":            func(d *StockIn) { d.Model = " " },
		"150 to 400 are possible":          func(d *StockIn) { d.Size = 28 },
		"1 to 500 can be entered":          func(d *StockIn) { d.Count = 0 },
		"count 501":                        func(d *StockIn) { d.Count = 501 },
		"a holder is a left or a right":    func(d *StockIn) { d.Piece, d.Model = inventory.KindHolder, "Model H" },
		"a trunk is not stocked":           func(d *StockIn) { d.Piece = inventory.KindTrunk },
		"is no side":                       func(d *StockIn) { d.Side = "port" },
		"thickness of 29.00 mm":            func(d *StockIn) { d.Thickness = 29 },
		"height 119.00 mm can't be right":  func(d *StockIn) { d.Height = mm(119) },
		"is a runner's, not a holder's":    func(d *StockIn) { d.Piece, d.Side = inventory.KindHolder, inventory.Left },
		"the model's name has 81 letters":  func(d *StockIn) { d.Model = strings.Repeat("m", 81) },
		"has a letter that can't be print": func(d *StockIn) { d.Model = "R\t2" },
	} {
		deed := good
		spoil(&deed)
		c.refuses("2 09:00", deed, reason)
	}
	c.refuses("2 09:00", DeclareModel{Name: "R9", Piece: "boot"}, "not known")
	c.refuses("2 09:00", DeclareModel{Name: "R9", Piece: "runner", Height: mm(1)}, "can't be right")
	c.refuses("2 09:00", AddPair{c.bo, "fourth"}, "not known")
	c.refuses("2 09:00", AddPair{c.bo, "first"}, "first pair is")
}

func TestStockTakesWhatTheModelSays(t *testing.T) {
	c := openClubhouse(t)
	n := c.stock(inventory.KindRunner, "  model   r ", "", 1)[0]
	if r := c.runner(n); r.Thickness != 2.9 || *r.Height != 11.9 {
		t.Errorf("got %+v", r.Stock)
	}
	c.do("2 09:00", DeclareModel{Name: "Model R", Piece: "runner", Family: "H", Thickness: 3, Height: mm(12)})
	if r := c.runner(n); *r.Height != 11.9 {
		t.Error("what is in stock changed with the model")
	}
	if r := c.runner(c.stock(inventory.KindRunner, "Model R", "", 1)[0]); *r.Height != 12 || r.Thickness != 3 {
		t.Errorf("got %+v", r.Stock)
	}
}

func TestNumbersRunOutInPlainWords(t *testing.T) {
	c := openClubhouse(t)
	last, _ := inventory.NewNumber(inventory.KindPair, 1, inventory.MaxRunning-1)
	c.note(inventory.Draft{Happened: when(t, "2 09:00"), Body: &inventory.PairNoted{Pair: last, Player: c.kit, Role: "spare"}})
	c.do("2 10:00", AddPair{c.bo, "spare"})
	next := c.do("2 11:00", AddPair{c.bo, "third"})[0].Body.(*inventory.PairNoted).Pair
	if next == c.pair || next == c.kitPair || next.Running() > 100 {
		t.Errorf("after a single high number comes %s", next.Short())
	}
	c.note(inventory.Draft{Happened: when(t, "2 12:00"), Body: &inventory.Reserved{Piece: "pair", Station: 1, First: 1, Count: inventory.MaxRunning}})
	c.refuses("2 13:00", AddPair{c.kit, "third"}, "has no pair numbers left")
	c.refuses("2 11:00", StockIn{Piece: inventory.KindRunner, Model: "Model R", Size: 280, Count: 501}, "count 501")
}

func TestRolesOfPairs(t *testing.T) {
	c := openClubhouse(t)
	spare := c.give(AddPair{c.bo, "spare"})
	c.refuses("5 09:00", GiveRole{spare, "first"}, "first pair is")
	c.do("5 09:00", GiveRole{c.pair, "third"})
	c.do("5 09:00", GiveRole{spare, "first"})
	c.do("6 09:00", PutSetIn{Player: c.bo, Set: c.setA, Pair: c.pair})
	c.refuses("6 09:30", Grind{Player: c.bo}, "no steel was on Bo Quillon's first pair")
	c.do("6 09:30", Grind{Player: c.bo, Pair: c.pair})
	if pair, err := inventory.PairInRole(&c.Ledger, c.player(c.bo), "first", at(t, "4 09:00")); err != nil || pair.Number != c.pair {
		t.Errorf("the day before, the first pair was %v, %v", pair, err)
	}
}

func TestPlaces(t *testing.T) {
	c := openClubhouse(t)
	c.do("2 09:00", PutAt{Pieces: []inventory.Number{c.setA, c.left}, Place: inventory.Place{Name: "trunk 3", Slot: "7"}})
	for _, n := range []inventory.Number{c.setA, c.runners[0], c.runners[1], c.left} {
		if got := inventory.MarksOf(&c.Ledger, n).Place(theNow).String(); got != "trunk 3, slot 7" {
			t.Errorf("%s lies at %q", n.Short(), got)
		}
	}
	bin := inventory.Place{Name: "the bin"}
	c.do("3 09:00", PutSetIn{Player: c.bo, Set: c.setA})
	c.do("4 09:00", TakeOut{Player: c.bo, Reason: "low", Place: &bin})
	if got := c.runner(c.runners[0]).Place(theNow); got != bin {
		t.Errorf("it lies at %q", got)
	}
	c.refuses("5 09:00", PutAt{Place: bin}, "no piece was named")
	c.refuses("5 09:00", PutAt{Pieces: []inventory.Number{c.left}, Place: inventory.Place{}}, "place is empty")
	c.refuses("5 09:00", PutAt{Pieces: []inventory.Number{c.bo}, Place: bin}, "not a piece")
	c.refuses("5 09:00", PutAt{Pieces: []inventory.Number{0}, Place: bin}, "not a piece")
}

func TestSchedule(t *testing.T) {
	c := openClubhouse(t)
	away := AddSession{Start: when(t, "10 19:00"), Game: true, Opponent: "Rime Point", Away: true}
	c.do("2 09:00", away)
	c.do("2 09:00", AddSession{Start: when(t, "2026-02-01 10:00"), Note: "late ice"})
	c.refuses("2 09:00", away, "has a session at that time")
	c.refuses("2 09:00", AddSession{Start: when(t, "2025-11-12"), Game: true, Opponent: "Rime Point"}, "day and time")
	c.refuses("2 09:00", AddSession{Start: when(t, "12 19:00"), Game: true}, "opponent's name is empty")
	c.putIn("3 10:00", c.setA)
	taken := c.change("2025-12-01 12:00", c.setB, "low")
	if got := taken[0].Body.(*inventory.TakenOut).LastGame; got != "Rime Point 10 Nov" {
		t.Errorf("the last game was %q", got)
	}
	if game, found := inventory.LastGame(&c.Ledger, at(t, "10 18:59")); found {
		t.Errorf("before the first game the last one was %+v", game)
	}
}
