package deeds

import (
	"testing"

	"steeltally/inventory"
)

func TestChangeIsBothHalvesOrNone(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.refuses("4 12:00", PutSetIn{Player: c.bo, Set: c.setA}, "already on")
	c.refuses("4 12:00", PutSetIn{Player: c.bo, Set: c.setB}, "is on the left boot")
	c.refuses("4 12:00", ChangeSteel{TakeOut{Player: c.bo, Reason: "low"}, c.setA}, "already on")
	c.refuses("4 12:00", ChangeSteel{TakeOut{Player: c.bo, Reason: "low"}, c.kitSet}, "is not Bo Quillon's")
	c.refuses("4 12:00", ChangeSteel{TakeOut{Player: c.bo, Reason: "tired"}, c.setB}, "not known")
	c.on("4 12:00", c.runners[0], c.runners[1])
	events := c.change("4 12:00", c.setB, "low")
	if len(events) != 2 || events[0].More != 1 || events[1].More != 0 {
		t.Errorf("the change is no one action: %+v", events)
	}
	c.on("4 12:00", c.runners[2], c.runners[3])
	c.on("4 11:59", c.runners[0], c.runners[1])
	c.stateOf("4 12:00", c.setA, inventory.Removed)
	c.stateOf("4 12:00", c.runners[0], inventory.Removed)
	c.stateOf("4 12:00", c.setB, inventory.On)
	c.unflagged()
}

func TestRotatedSteelGoesOnLiving(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.change("4 12:00", c.setB, "rotate")
	c.stateOf("4 12:00", c.setA, inventory.Ready)
	c.change("5 12:00", c.setA, "rotate")
	c.stateOf("5 12:00", c.setA, inventory.On)
	c.stateOf("5 12:00", c.setB, inventory.Ready)
	if order := c.set(c.setA).Order(theNow); order != 1 {
		t.Errorf("set A is set %d, want the first", order)
	}
	if order := c.set(c.setB).Order(theNow); order != 2 {
		t.Errorf("set B is set %d, want the second", order)
	}
	c.unflagged()
}

func TestLastHeightsComeWithTheChange(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	off := TakeOut{Player: c.bo, Reason: "low", Heights: inventory.Both[millimetre]{Left: mm(9.4), Right: mm(9.6)}}
	c.do("4 12:00", ChangeSteel{off, c.setB})
	for i, want := range []millimetre{9.4, 9.6} {
		wear := c.runner(c.runners[i]).WearAt(theNow)
		if wear.HeightFinal == nil || *wear.HeightFinal != want || wear.LastReference != inventory.Loose {
			t.Errorf("runner %d: %+v, want a final height of %s", i, wear, want)
		}
	}
}

func TestChangeEnteredLate(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.grind("4 17:00")
	c.grind("5 07:00")
	c.change("4 12:00", c.setB, "rotate")
	c.told("2 grinds since then are logged on the old set")
	c.on("4 17:00", c.runners[2], c.runners[3])
	c.wearOf(c.runners[0], 2, 10) // what was said stays until somebody corrects it
	c.refuses("4 11:00", ChangeSteel{TakeOut{Player: c.bo, Reason: "low"}, c.setC}, "was changed after that time")
	c.refuses("4 11:00", TakeOut{Player: c.bo, Reason: "low"}, "was changed after that time")
}

func TestSteelThatIsUsedLaterElsewhereIsNotPutInBefore(t *testing.T) {
	c := openClubhouse(t)
	spare := c.give(AddPair{c.bo, "spare"})
	c.putIn("5 10:00", c.setA)
	c.refuses("4 10:00", PutSetIn{Player: c.bo, Set: c.setA, Pair: spare}, "after that time")
	c.refuses("6 10:00", PutSetIn{Player: c.bo, Set: c.setA, Pair: spare}, "is on pair")
	c.do("7 10:00", TakeOut{Player: c.bo, Reason: "rotate"})
	c.do("7 10:00", PutSetIn{Player: c.bo, Set: c.setA, Pair: spare})
	c.unflagged()
}

func TestSetIsNotPutInBeforeItWasMade(t *testing.T) {
	c := openClubhouse(t)
	made := given(t, c.do("10 09:00", MakeSet{Player: c.bo, Left: c.runners[6], Right: c.runners[7]}))
	c.refuses("9 10:00", PutSetIn{Player: c.bo, Set: made}, "was made only on")
	c.putIn("10 09:00", made)
	c.stateOf("10 09:00", c.runners[6], inventory.On)
}

func TestOnlyOneSideComesOff(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.do("4 12:00", TakeOut{Player: c.bo, Side: inventory.Left, Reason: "rotate"})
	c.on("4 12:00", 0, c.runners[1])
	c.stateOf("4 12:00", c.setA, inventory.On)
	c.stateOf("4 12:00", c.runners[0], inventory.Ready)
	c.refuses("4 13:00", PutSetIn{Player: c.bo, Set: c.setB}, "is on the right boot")
	c.putIn("4 14:00", c.setA) // the one that is out goes back
	c.on("4 14:00", c.runners[0], c.runners[1])
	c.refuses("4 15:00", PutSetIn{Player: c.bo, Set: c.setA}, "already on")
	c.unflagged()
}

func TestRunnerBreaksWhileItsMateIsFine(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.do("4 19:30", ReportDamage{Piece: c.runners[0], Mode: "break", Zone: "middle", Cause: "puck"})
	c.told("DO NOT SKATE")
	c.do("4 19:31", TakeOut{Player: c.bo, Reason: "broken"})
	c.stateOf("4 19:31", c.runners[0], inventory.Removed)
	c.stateOf("4 19:31", c.runners[1], inventory.Ready)
	c.stateOf("4 19:31", c.setA, inventory.Removed)
	c.refuses("4 19:32", PutSetIn{Player: c.bo, Set: c.setA}, "do not skate on it")
	anew := given(t, c.do("4 19:40", MakeSet{Player: c.bo, Left: c.runners[6], Right: c.runners[1]}))
	c.putIn("4 19:41", anew)
	c.on("4 19:41", c.runners[6], c.runners[1])
	c.unflagged()
}

func TestBrokenWithNoDamageRecordedTakesBoth(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.do("4 19:31", TakeOut{Player: c.bo, Reason: "broken"})
	c.told("no damage is recorded")
	c.stateOf("4 19:31", c.runners[1], inventory.Removed)
}

func TestRemovedRunnerPutBackVoidsItsTag(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.change("4 12:00", c.setB, "low")
	if got := c.runner(c.runners[0]).Generation(theNow); got != 1 {
		t.Fatalf("the first tag is of generation %d", got)
	}
	c.change("5 12:00", c.setA, "rotate")
	c.told("its old tag is void")
	if got := c.runner(c.runners[0]).Generation(theNow); got != 2 {
		t.Errorf("back in use the generation is %d", got)
	}
	c.change("6 12:00", c.setB, "low")
	runner := c.runner(c.runners[0])
	if got := runner.Generation(theNow); got != 2 {
		t.Errorf("the second tag is of generation %d", got)
	}
	stints := runner.Stints(theNow)
	if len(stints) != 2 || stints[0].Open || stints[1].Open || stints[1].Reason != "low" || !stints[1].Retired {
		t.Errorf("stints %+v", stints)
	}
	if got := runner.Generation(at(t, "4 13:00")); got != 1 {
		t.Errorf("at the first removal the generation was %d", got)
	}
}

func TestRunnerReusedOnAnotherPlayer(t *testing.T) {
	c := openClubhouse(t)
	ida := c.give(AddPlayer{Name: "Ida Sund", Position: "forward", Sweater: 8})
	c.equip(ida, "first", "Model H")
	c.putIn("3 10:00", c.setA)
	c.grind("3 11:00")
	c.change("4 12:00", c.setB, "low")
	hers := given(t, c.do("5 09:00", MakeSet{Player: ida, Left: c.runners[0], Right: c.runners[1]}))
	c.told("its old tag is void")
	c.refuses("5 10:00", PutSetIn{Player: c.bo, Set: c.setA}, "gave a runner to another set")
	c.do("5 10:00", PutSetIn{Player: ida, Set: hers})
	c.do("5 11:00", Grind{Player: ida, Passes: passes(4, 4)})
	c.wearOf(c.runners[0], 2, 9)
	stints := c.runner(c.runners[0]).Stints(theNow)
	if len(stints) != 2 || stints[0].Player != c.bo || stints[1].Player != ida || stints[1].Order != 1 {
		t.Errorf("stints %+v", stints)
	}
	c.stateOf("4 13:00", c.setA, inventory.Removed)
	c.stateOf("3 12:00", c.setA, inventory.On)
	c.unflagged()
}

func TestTakeOneRunnerOut(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.refuses("4 12:00", TakeRunnerOut{Runner: c.runners[2], Reason: "low"}, "is in no holder")
	c.refuses("4 12:00", TakeRunnerOut{Runner: c.left, Reason: "low"}, "is a holder, not a runner")
	c.do("4 12:00", TakeRunnerOut{Runner: c.runners[1], Reason: "low", Height: mm(9.1)})
	c.on("4 12:00", c.runners[0], 0)
	c.stateOf("4 12:00", c.runners[1], inventory.Removed)
	c.stateOf("4 12:00", c.runners[0], inventory.On)
}
