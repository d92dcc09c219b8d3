package deeds

import (
	"encoding/json"
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/inventorytest"
)

func TestSetsThatCannotBe(t *testing.T) {
	c := openClubhouse(t)
	free, other := c.runners[6], c.runners[7]
	c.refuses("2 09:00", MakeSet{Player: c.bo, Left: free, Right: free}, "can't be left and right")
	c.refuses("2 09:00", MakeSet{Player: c.bo, Left: c.left, Right: other}, "is a holder, not a runner")
	c.refuses("2 09:00", MakeSet{Player: c.bo, Left: free}, "no runner was named")
	c.refuses("2 09:00", MakeSet{Player: c.bo, Left: free, Right: other, Letter: "A"}, "has a set A already")
	c.refuses("2 09:00", MakeSet{Player: c.bo, Left: free, Right: other, Letter: "a"}, "one of A to Z")
	c.refuses("2 09:00", MakeSet{Player: c.bo, Left: free, Right: other, Letter: "Ä"}, "one of A to Z")
	c.putIn("3 10:00", c.setA)
	c.refuses("4 09:00", MakeSet{Player: c.bo, Left: c.runners[0], Right: other}, "is in a holder")
	c.refuses("2 09:00", MakeSet{Player: c.bo, Left: c.runners[0], Right: other}, "was used after that time")
	c.do("4 09:00", ReportDamage{Piece: free, Mode: "bend"})
	c.refuses("4 10:00", MakeSet{Player: c.bo, Left: free, Right: other}, "do not skate on it")
}

// Entered twice, a set would lose its letter, and its sleeve would tell another one.
func TestASetIsMadeOnce(t *testing.T) {
	c := openClubhouse(t)
	left, right := c.runners[6], c.runners[7]
	made := given(t, c.do("2 09:00", MakeSet{Player: c.bo, Left: left, Right: right}))
	c.refuses("2 09:01", MakeSet{Player: c.bo, Left: left, Right: right}, "are his set D already")
	c.refuses("2 09:01", MakeSet{Player: c.bo, Left: left, Right: right, Letter: "D"}, "has a set D already")
	if set := c.set(made); set.BrokenAt(at(t, "2 09:02")) {
		t.Error("the refusal broke the set")
	}
	c.do("3 09:03", MakeSet{Player: c.bo, Left: left, Right: right}) // matched anew
	c.told("set D " + made.Short() + " is no set any more")
	made = given(t, c.do("3 09:04", MakeSet{Player: c.bo, Left: left, Right: right, Letter: "D"}))
	c.do("3 09:05", MakeSet{Player: c.bo, Left: left, Right: right, Letter: "K"})
	c.told("set D " + made.Short() + " is no set any more")
	c.told("write the new letter on its sleeve")
}

// The side is settled when a runner first goes into a set; a maker's left stays left.
func TestWrongSide(t *testing.T) {
	c := openClubhouse(t)
	c.refuses("2 09:00", MakeSet{Player: c.bo, Left: c.runners[3], Right: c.runners[6]}, "is a right runner, not a left one")
	marked := c.stock(inventory.KindRunner, "Model R", inventory.Right, 1)[0]
	c.refuses("2 09:00", MakeSet{Player: c.bo, Left: marked, Right: c.runners[6]}, "is a right runner, not a left one")
	c.do("2 09:00", MakeSet{Player: c.bo, Left: c.runners[6], Right: marked})
}

func TestRunnersThatDifferAreTold(t *testing.T) {
	c := openClubhouse(t)
	longer := given(t, c.do("2 09:00", StockIn{Piece: inventory.KindRunner, Model: "Model R2", Size: 288, Count: 1}))
	c.told("is not declared")
	c.do("2 09:10", MakeSet{Player: c.bo, Left: c.runners[6], Right: longer})
	c.told("left is a Model R, right a Model R2")
	c.told("left is a 280, right a 288")
}

func TestLettersGoRoundAndAreUsedAgain(t *testing.T) {
	c := openClubhouse(t)
	if got := c.set(c.setC).Letter; got != "C" {
		t.Fatalf("the third set is %s", got)
	}
	c.putIn("3 10:00", c.setA)
	c.change("4 10:00", c.setB, "low")
	pieces := c.stock(inventory.KindRunner, "Model R", "", 60)
	letters := ""
	for i := 0; i < 48; i += 2 {
		made := given(t, c.do("5 09:00", MakeSet{Player: c.bo, Left: pieces[i], Right: pieces[i+1]}))
		letters += c.set(made).Letter
	}
	if letters != "DEFGHIJKLMNOPQRSTUVWXYZA" {
		t.Errorf("the letters were %s", letters)
	}
	c.refuses("5 10:00", MakeSet{Player: c.bo, Left: pieces[48], Right: pieces[49]}, "for every letter")
	newA := c.player(c.bo).SetLettered("A")
	if set, err := inventory.SetOfPlayer(&c.Ledger, c.player(c.bo), "a"); err != nil || set.Number != newA || newA == c.setA {
		t.Errorf("A is %v, %v", set, err)
	}
	if set, err := inventory.SetOfPlayer(&c.Ledger, c.player(c.bo), c.setA.Short()); err != nil || set.Number != c.setA {
		t.Errorf("the first A is %v, %v", set, err)
	}
	// Before the new A was made, "A" must not silently be the new one.
	c.refuses("4 12:00", ChangeSteel{TakeOut{Player: c.bo, Reason: "low"}, newA}, "was made only on")
}

func TestSetsOfOthers(t *testing.T) {
	c := openClubhouse(t)
	for text, reason := range map[string]string{"Z": "has no set Z", "": "has no set", c.kitSet.Short(): "is Kit Marrable's", c.left.Short(): "is a holder, not a set", "AB": "not one of our numbers"} {
		if set, err := inventory.SetOfPlayer(&c.Ledger, c.player(c.bo), text); err == nil {
			t.Errorf("%q is %v, want: %s", text, set, reason)
		}
	}
	c.refuses("3 10:00", PutSetIn{Player: c.bo, Set: c.kitSet}, "is not Bo Quillon's")
	c.refuses("3 10:00", PutSetIn{Player: c.bo, Set: c.runners[0]}, "is a runner, not a set")
}

func TestASetThatGaveItsRunner(t *testing.T) {
	c := openClubhouse(t)
	anew := given(t, c.do("5 09:00", MakeSet{Player: c.bo, Left: c.runners[0], Right: c.runners[7]}))
	c.told("set A S1-1-72 is no set any more")
	c.stateOf("4 09:00", c.setA, inventory.Ready)
	c.stateOf("5 09:00", c.setA, inventory.Removed)
	c.refuses("5 10:00", PutSetIn{Player: c.bo, Set: c.setA}, "gave a runner to another set")
	c.do("4 07:00", Grind{Set: c.setA}) // before it did
	c.putIn("5 10:00", anew)
	c.unflagged()
}

func TestALetterThatIsNone(t *testing.T) {
	c := openClubhouse(t)
	for _, letter := range []string{"", "ä", "AA"} {
		var e inventory.Event
		body := `{"set":"` + c.setC.String() + `","player":"` + c.kit.String() + `","letter":"` + letter + `"}`
		if err := json.Unmarshal([]byte(inventorytest.EventLine("set", body)), &e); err != nil {
			t.Fatal(err)
		}
		c.Add(e)
		c.do("5 09:00", MakeSet{Player: c.kit, Left: c.stock(inventory.KindRunner, "Model RG", "", 1)[0], Right: c.stock(inventory.KindRunner, "Model RG", "", 1)[0]})
	}
}

func TestWhatDoesNotFit(t *testing.T) {
	c := openClubhouse(t)
	short := c.do(opening, StockIn{Piece: inventory.KindRunner, Model: "Model R", Size: 272, Count: 2})[0].Body.(*inventory.StockedIn).Pieces
	c.refuses("3 10:00", PutSetIn{Player: c.bo, Set: c.match(c.bo, short[0], short[1])}, "the runner is a 272, the holder a 280")
	keepers := c.stock(inventory.KindRunner, "Model RG", "", 2)
	c.refuses("3 10:00", PutSetIn{Player: c.bo, Set: c.match(c.bo, keepers[0], keepers[1])}, "one is a goalkeeper's")
	unknown := c.stock(inventory.KindRunner, "Model X", "", 2)
	c.putIn("3 10:00", c.match(c.bo, unknown[0], unknown[1]))
	c.told("what fits is not declared for Model X")
	c.do("3 09:00", Grind{Set: c.kitSet, Work: "hone"})
	c.do("3 10:00", PutSetIn{Player: c.kit, Set: c.kitSet})
	c.told("was not ground yet")
	c.do("3 11:00", Grind{Player: c.kit})
	c.do("3 12:00", TakeOut{Player: c.kit, Reason: "rotate"})
	c.do("3 13:00", PutSetIn{Player: c.kit, Set: c.kitSet})
	c.quiet()
}
