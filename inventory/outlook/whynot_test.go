package outlook

import (
	"testing"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// TestEachRunnerSaysItsOwnReason tells passes that nobody counted from a height that was
// never taken.
func TestEachRunnerSaysItsOwnReason(t *testing.T) {
	const uncounted, never = "some passes were not counted", "no height is known to begin with"
	b := openBench(t)
	player := b.skater(17, "defence")
	runners := b.do(day(-100), deeds.StockIn{Piece: inventory.KindRunner, Model: "Skua R", Size: 280, Count: 2})[0].Body.(*inventory.StockedIn).Pieces
	set := b.do(day(-100), deeds.MakeSet{Player: player, Left: runners[0], Right: runners[1]})[0].Body.(*inventory.SetMade).Set
	b.do(day(-90), deeds.PutSetIn{Player: player, Set: set})
	says := func(all, left, right string) {
		t.Helper()
		due := b.only(player)
		if due.Standing != NeedsMeasure || due.CannotSay != all || due.Sides[0].CannotSay != left || due.Sides[1].CannotSay != right {
			t.Errorf("standing %d: %q; left %q, right %q", due.Standing, due.CannotSay, due.Sides[0].CannotSay, due.Sides[1].CannotSay)
		}
	}
	measure := func(at int, runner inventory.Number, height geometry.Millimetre) {
		t.Helper()
		b.do(day(at), deeds.MeasureSteel{Heights: []inventory.Height{{Runner: runner, Middle: &height}}})
	}
	says("can't say until measured: "+never, never, never)
	measure(-80, runners[0], 11.5)
	says("can't say until measured: right "+never, "", never)
	b.grind(day(-70), player, 0)
	says("can't say until measured: left "+uncounted+", right "+never, uncounted, never)
	measure(-60, runners[1], 11.1)
	says("can't say until measured: left "+uncounted, uncounted, "")
	b.grind(day(-50), player, 0)
	says("can't say until measured: "+uncounted, uncounted, uncounted)
}

// TestWhatToMeasureIsNamed by its player only where he skates on it.
func TestWhatToMeasureIsNamed(t *testing.T) {
	b := openBench(t)
	player := b.skater(17, "defence")
	b.do(day(-40), deeds.PutSetIn{Player: player, Set: b.steel(player, "Skua R")})
	b.grind(day(-30), player, 0)
	spare := b.do(day(-40), deeds.AddPair{Player: player, Role: inventory.RoleSpare})[0].Body.(*inventory.PairNoted).Pair
	b.do(day(-40), deeds.PutSetIn{Player: player, Pair: spare, Set: b.steel(player, "Skua R")})
	b.do(day(-30), deeds.Grind{Player: player, Pair: spare, Unknown: true})
	first, others, _ := b.look().Due()
	if len(first) != 1 || first[0].ToDo != "steeltally measure 17" {
		t.Errorf("%+v", first)
	}
	if len(others) != 1 || others[0].ToDo != "steeltally measure "+spare.Short() {
		t.Errorf("%+v", others)
	}
}
