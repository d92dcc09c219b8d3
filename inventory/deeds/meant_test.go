package deeds

import (
	"testing"

	"steeltally/inventory"
)

// A vague time can mean another set, and a boot can have steel on one side only.
func TestAGrindSaysWhatItWasTakenFor(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.do("4 10:00", Grind{Player: c.bo})
	c.quiet()
	c.do("2025-11-05", Grind{Player: c.bo})
	c.quiet() // A was on all day
	c.do("6 12:00", ChangeSteel{TakeOut: TakeOut{Player: c.bo, Reason: "rotate"}, Set: c.setB})
	c.do("2025-11-06", Grind{Player: c.bo})
	c.told("it may have been on another set: taken for set A")
	c.do("unknown", Grind{Player: c.bo})
	c.told("it may have been on another set")
	c.do("7 10:00", TakeRunnerOut{Runner: c.runners[3], Reason: "rotate"})
	c.do("7 10:10", Grind{Player: c.bo})
	c.told("no right runner is on: only the other one was logged")
}

// What only may be broken is not called damaged; of many, who holds the others up is named.
func TestASuspectHoldsUpTheTeam(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.do("3 10:00", PutSetIn{Player: c.kit, Set: c.kitSet})
	c.do("4 10:00", CallEmergency{Player: c.bo, Side: inventory.Right})
	c.refuses("4 11:00", Grind{Player: c.bo}, "the right runner "+c.runners[1].Short()+" may be broken, nobody has looked yet")
	c.refuses("4 11:00", GrindMany{Players: []inventory.Number{c.kit, c.bo}}, "nobody was logged: Bo Quillon: ")
	c.do("4 11:10", ReportDamage{Piece: c.runners[1], Mode: "crack"})
	c.refuses("4 11:20", Grind{Player: c.bo}, "is damaged")
}
