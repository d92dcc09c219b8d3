package outlook

import (
	"testing"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// TestCaliperWithAnotherZero: a caliper that measures fitted steel from the holder's
// edge reads millimetres less than the height at stock-in. Then that height says
// nothing, and the forecast rests on what was read.
func TestCaliperWithAnotherZero(t *testing.T) {
	b := openBench(t)
	player := b.skater(17, "defence")
	low := geometry.Millimetre(5.4)
	b.do(day(-90), deeds.NoteSpecs{Player: player, Specs: inventory.Specs{ChangeHeight: &low}})
	b.do(day(-80), deeds.PutSetIn{Player: player, Set: b.steel(player, "Skua R")})
	for i, height := range []geometry.Millimetre{8.06, 7.18, 6.34} {
		b.grind(day(-30+10*i), player, 40)
		b.measure(day(-29+10*i), player, inventory.Fitted, height)
	}
	due := b.only(player)
	near(t, "loss", due.Sides[0].Loss, 0.0214, 0.0006)
	near(t, "passes left", due.Passes.Middle, 44, 3)
	if len(due.Sides[0].Doubts) > 0 {
		t.Errorf("sound heights are doubted: %+v", due.Sides[0].Doubts)
	}
}

// TestDoubtfulHeights says which height is not used, and which to take again.
func TestDoubtfulHeights(t *testing.T) {
	b := openBench(t)
	player := b.skater(17, "defence")
	b.worn(player, b.steel(player, "Skua R"), 20)
	b.grind(day(-15), player, 20)
	b.measureSides(day(-14), player, inventory.Fitted, 7.1, 8.92)
	due := b.only(player)
	if d := due.Sides[0].Doubts; len(d) != 1 || !d[0].Again || d[0].Height != 7.1 || due.Standing == DueNow {
		t.Errorf("the last height is a slip: %+v, standing %v", d, due.Standing)
	}
	b.grind(day(-10), player, 5)
	b.measure(day(-9), player, inventory.Fitted, 8.81)
	if d := b.only(player).Sides[0].Doubts; len(d) != 1 || d[0].Again || d[0].Height != 7.1 {
		t.Errorf("measured again: %+v", d)
	}
}
