package deeds

import (
	"testing"

	"steeltally/inventory"
)

func TestDamageNamesWhatThePieceHangsOn(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	minutes, shifts := 5.0, 0
	body := c.do("4 19:30", ReportDamage{Piece: c.left, Mode: "crack", Zone: "rear-tower", Cause: "puck", ShiftsMissed: &shifts, Minutes: &minutes})[0].Body.(*inventory.Damaged)
	c.told("take it off pair " + c.pair.Short() + " now")
	if body.Pair != c.pair || body.Player != c.bo || !body.Unsafe {
		t.Errorf("noted %+v", body)
	}
	body = c.do("4 19:30", ReportDamage{Piece: c.runners[0], Mode: "chip"})[0].Body.(*inventory.Damaged)
	if body.Pair != c.pair || body.Player != c.bo || body.Unsafe {
		t.Errorf("noted %+v", body)
	}
	c.quiet()
	c.do("5 09:00", TakeOut{Player: c.bo, Reason: "chipped"})
	body = c.do("6 09:00", ReportDamage{Piece: c.runners[1], Mode: "rust"})[0].Body.(*inventory.Damaged)
	if body.Pair != 0 {
		t.Errorf("it is on no pair, but noted is %+v", body)
	}
}

// A damage entered twice would be counted twice, in what it cost and in what is to be mended.
func TestADamageIsNotedOnce(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	shifts := 2
	c.do("4 19:30", ReportDamage{Piece: c.left, Mode: "crack", Zone: "heel"})
	c.refuses("4 19:31", ReportDamage{Piece: c.left, Mode: "crack", Zone: "heel", ShiftsMissed: &shifts}, "crack heel is noted already")
	c.do("4 19:32", ReportDamage{Piece: c.left, Mode: "crack", Zone: "toe"})
	c.do("4 19:32", ReportDamage{Piece: c.left, Mode: "crack", Zone: "heel", Face: "inner"})

	loose := ReportDamage{Piece: c.right, Mode: "loose-bolt", Zone: "heel"}
	c.do("5 09:00", loose)
	c.refuses("5 09:01", loose, "noted already")
	c.do("6 09:01", loose) // loose again, or still
	c.do("6 09:10", Inspect{Piece: c.right, Sound: true})
	c.do("6 09:20", loose)
}

// What was noted before is not noted again by an emergency, which goes on.
func TestAnEmergencyNotesNoDamageTwice(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	call := CallEmergency{Player: c.bo, Side: inventory.Left, Broke: BrokeHolder, Mode: "crack", Zone: "heel"}
	c.do("4 19:30", call)
	c.do("4 19:31", call)
	c.do("4 19:40", EndEmergency{Player: c.bo, Did: inventory.RemedyMended, Broke: BrokeHolder, Mode: "crack", Zone: "heel"})
	if got := len(inventory.MarksOf(&c.Ledger, c.left).OpenDamages(at(t, "5 09:00"))); got != 1 {
		t.Errorf("one crack stands as %d", got)
	}
}

func TestDamageThatCannotBe(t *testing.T) {
	c := openClubhouse(t)
	minutes, shifts := -1.0, 61
	for reason, deed := range map[string]ReportDamage{
		"mode":                   {Piece: c.left, Mode: ""},
		`zone "roof" is not`:     {Piece: c.left, Mode: "crack", Zone: "roof"},
		`cause "bear" is not`:    {Piece: c.left, Mode: "crack", Cause: "bear"},
		`face "top" is not`:      {Piece: c.left, Mode: "crack", Face: "top"},
		`found "lunch" is not`:   {Piece: c.left, Mode: "crack", Found: "lunch"},
		"shifts missed":          {Piece: c.left, Mode: "crack", ShiftsMissed: &shifts},
		"the time that it took":  {Piece: c.left, Mode: "crack", Minutes: &minutes},
		"a set is not damaged":   {Piece: c.setA, Mode: "crack"},
		"a player is not damage": {Piece: c.bo, Mode: "break"},
	} {
		c.refuses("4 09:00", deed, reason)
	}
}

func TestACrackIsClosedByNoLook(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	cracked := c.do("4 09:00", ReportDamage{Piece: c.runners[0], Mode: "crack"})
	c.refuses("5 09:00", Inspect{Piece: c.runners[0], Sound: true}, "no look closes")
	c.refuses("5 09:00", Inspect{Piece: c.pair, Sound: true}, "no look closes")
	c.do("5 09:00", Inspect{Piece: c.pair, Sound: false, Note: "left runner"})
	if !c.runner(c.runners[0]).DoNotSkate(theNow) || c.runner(c.runners[0]).DoNotSkate(at(t, "4 08:59")) {
		t.Error("DO NOT SKATE is wrong")
	}
	c.do("6 09:00", undo(cracked)) // it was another one
	c.do("6 09:10", Inspect{Piece: c.pair, Sound: true})
	if got := len(c.holder(c.right).Inspected); got != 2 {
		t.Errorf("the holder was looked at %d times", got)
	}
}

func TestALookClosesWhatIsMended(t *testing.T) {
	for _, step := range []struct {
		damage, look string
		open         int
	}{
		{"4 09:00", "4 10:00", 0},
		{"4 09:00", "4 08:00", 1},
		{"4 09:00", "4 09:00", 0},    // noted in that order
		{"2025-11-04", "4 10:00", 0}, // on that day, noted in that order
		{"2025-11", "2025-12-02 09:00", 0},
		{"unknown", "4 10:00", 0},
		{"4 09:00", "unknown", 0},
	} {
		c := openClubhouse(t)
		c.do(step.damage, ReportDamage{Piece: c.left, Mode: "loose-rivet"})
		c.do(step.look, Inspect{Piece: c.left, Sound: true})
		if got := len(c.holder(c.left).OpenDamages(theNow)); got != step.open {
			t.Errorf("damaged %s, looked at %s: %d open", step.damage, step.look, got)
		}
	}
}

// A damage that is entered later may have come after the look: it stays open.
func TestALookThatMayHaveComeBeforeClosesNothing(t *testing.T) {
	for damage, open := range map[string]int{"4 10:00": 1, "2025-11-04": 1, "2025-11": 1, "unknown": 1, "5 09:00": 1, "4 09:00": 0, "2025-10": 0} {
		c := openClubhouse(t)
		c.do("4 10:00", Inspect{Piece: c.left, Sound: true})
		c.do(damage, ReportDamage{Piece: c.left, Mode: "loose-bolt"})
		if got := len(c.holder(c.left).OpenDamages(theNow)); got != open {
			t.Errorf("damaged %s: %d open, want %d", damage, got, open)
		}
	}
}
