package deeds

import (
	"testing"

	"steeltally/inventory"
)

// bothMeasured are the heights of bo's set A, on one reference.
func (c *clubhouse) bothMeasured(reference inventory.Reference, left, right float64) MeasureSteel {
	return MeasureSteel{Player: c.bo, Set: c.setA, Reference: reference, Heights: []inventory.Height{
		{Runner: c.runners[0], Side: inventory.Left, Middle: mm(left)}, {Runner: c.runners[1], Side: inventory.Right, Middle: mm(right)},
	}}
}

// A first height is held against the one at stock-in, 11.9 mm: one side alone that is far
// lower is a slip, and so is less than half of the steel; what came down on both is used
// steel, or a caliper that counts from another edge of a holder.
func TestFirstHeightIsHeldAgainstTheStockIn(t *testing.T) {
	loose, fitted := inventory.Loose, inventory.Fitted
	elsewhere := Grind{Passes: passes(40, 40)}
	hollow := Grind{Work: "new-hollow", Hollow: &inventory.Cut{Radius: 12.7}, Passes: passes(9, 9)}
	for _, c := range []struct {
		name        string
		reference   inventory.Reference
		left, right float64
		work        *Grind
		why         string // none: it is an honest one
	}{
		{"the left one mistyped", fitted, 5.1, 11.7, nil, "explains 10.25 mm at the lowest"},
		{"the left one mistyped, loose", loose, 5.1, 11.7, nil, "explains 10.25 mm at the lowest"},
		{"a digit, after a new hollow on both", fitted, 9.6, 11.6, &hollow, "explains 10.15 mm at the lowest"},
		{"the other one misread as higher than new", fitted, 9.9, 17.9, nil, ""},
		{"used steel beside newer", fitted, 10.5, 11.7, nil, ""},
		{"two alike", fitted, 11.8, 11.7, nil, ""},
		{"ground after the stock-in, on both", fitted, 11.1, 11.2, &hollow, ""},
		{"a used set stocked in without a height", loose, 8.9, 9.1, nil, ""},
		{"a used set, fitted", fitted, 8.9, 9.1, nil, ""},
		{"another edge of the holder", fitted, 5.6, 5.7, nil, ""},
		{"half of the steel is gone, loose", loose, 5.6, 5.7, nil, "not even half of the steel would be left"},
		{"the left one ground alone", fitted, 9.6, 11.6, &elsewhere, ""},
		{"the left one ground alone, and a slip", fitted, 5.1, 11.6, &elsewhere, "not even half"},
	} {
		t.Run(c.name, func(t *testing.T) {
			club := openClubhouse(t)
			if c.work == &elsewhere {
				club.groundElsewhere("2 08:30", elsewhere)
			}
			club.putIn("3 08:00", club.setA)
			if c.work == &hollow {
				work := hollow
				work.Player = club.bo
				club.do("3 08:30", work)
			}
			deed := club.bothMeasured(c.reference, c.left, c.right)
			deed.Doubting = true
			if c.why == "" {
				club.do("3 09:00", deed)
				club.unflagged()
				return
			}
			club.refuses("3 09:00", deed, c.why) // somebody is there to look again
			deed.Doubting = false
			club.do("3 09:00", deed)
			club.told(c.why)
			club.flagged(club.runners[0], "kept as read")
		})
	}
}

// groundElsewhere grinds the left runner of set A in another set, and matches it anew.
func (c *clubhouse) groundElsewhere(text string, work Grind) {
	c.t.Helper()
	work.Set = c.match(c.bo, c.runners[0], c.runners[6])
	c.do(text, work)
	c.setA = given(c.t, c.do(text, MakeSet{Player: c.bo, Left: c.runners[0], Right: c.runners[1]}))
}

// Measured one after the other, the second is held against the first.
func TestFirstHeightBesideTheMatesLast(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 08:00", c.setA)
	c.do("3 09:00", one(c.runners[1], 11.7))
	deed := one(c.runners[0], 6.8)
	deed.Doubting = true
	c.refuses("3 09:01", deed, c.runners[1].Short()+" beside it explains 10.25 mm")
}

// A final height that is the first loose one is held against the stock-in too.
func TestFinalHeightIsHeldAgainstTheStockIn(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.do("4 10:00", c.bothMeasured(inventory.Fitted, 11.1, 11.0))
	c.do("6 10:00", TakeOut{Player: c.bo, Reason: "low", Heights: inventory.Both[millimetre]{Left: mm(5.4), Right: mm(9.6)}})
	c.told("5.40 mm is far lower than at stock-in, 11.90 mm")
	c.flagged(c.runners[0], "kept as read")
}

func TestFinalHeightsOfBothMayBeLow(t *testing.T) {
	c := openClubhouse(t)
	c.putIn("3 10:00", c.setA)
	c.do("4 10:00", c.bothMeasured(inventory.Fitted, 11.1, 11.0))
	c.do("6 10:00", TakeOut{Player: c.bo, Reason: "low", Heights: inventory.Both[millimetre]{Left: mm(9.4), Right: mm(9.6)}})
	c.unflagged()
}

// After a first height that was kept as read the right one is not too high, and the height
// new stays that at stock-in.
func TestADoubtedFirstHeightTeachesNothing(t *testing.T) {
	c := openClubhouse(t)
	n := c.runners[0]
	c.putIn("3 08:00", c.setA)
	c.grind("3 08:30")
	c.do("3 09:00", c.bothMeasured(inventory.Fitted, 5.1, 11.7))
	if wear := c.runner(n).WearAt(theNow); wear.HeightNew == nil || *wear.HeightNew != 11.9 {
		t.Errorf("height new %v, want 11.9", wear.HeightNew)
	}
	c.refuses("3 10:00", c.bothMeasured(inventory.Fitted, 17.1, 11.7), "higher than last time, 11.90 mm")
	c.do("3 10:00", c.bothMeasured(inventory.Fitted, 11.7, 11.7))
	if wear := c.runner(n).WearAt(theNow); *wear.HeightNew != 11.7 {
		t.Errorf("height new %s, want the first that nobody doubted", *wear.HeightNew)
	}
}

// A height at stock-in far from the model's is said.
func TestStockInFarFromItsModel(t *testing.T) {
	c := openClubhouse(t)
	for height, told := range map[float64]bool{5.1: true, 9: false, 13: false, 25: true} {
		c.do("2 09:00", StockIn{Piece: inventory.KindRunner, Model: "Model R", Size: 280, Count: 1, Height: mm(height)})
		if told {
			c.told("is far from the height of model Model R when new, 11.90 mm")
		} else {
			c.quiet()
		}
	}
}
