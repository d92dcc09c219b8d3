package outlook

import (
	"errors"
	"math/rand/v2"
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
	"steeltally/inventory/wear"
)

// crosswise wears two sets of a player, the second twice as fast, and matches their
// runners anew: the left of the first with the right of the second, and so on.
func (b *bench) crosswise(player inventory.Number) (sets [2]inventory.Number) {
	b.t.Helper()
	for i := range 2 {
		set := b.steel(player, "Skua R")
		begin := -60 + 20*i
		b.do(day(begin), deeds.PutSetIn{Player: player, Set: set})
		b.grind(day(begin+1), player, 20*(2-i))
		b.measure(day(begin+2), player, inventory.Fitted, 11.06)
		b.do(day(begin+3), deeds.TakeOut{Player: player, Reason: "rotate"})
	}
	p, err := inventory.PlayerOf(b, player)
	if err != nil {
		b.t.Fatal(err)
	}
	for i := range sets {
		made := b.do(day(-10), deeds.MakeSet{Player: player, Left: p.Sets[i].Left, Right: p.Sets[1-i].Right})
		sets[i] = made[0].Body.(*inventory.SetMade).Set
	}
	return sets
}

// The only goalkeeper's sets are matched crosswise: nothing is known of any kind of steel
// until one of them goes on.
func TestCrosswiseSetsOfTheOnlyGoalkeeper(t *testing.T) {
	b := openBench(t)
	player := b.skater(31, "goalkeeper")
	sets := b.crosswise(player)
	if due := b.due(); len(due) != 0 {
		t.Errorf("nothing is on, and %+v is due", due)
	}
	b.do(day(-9), deeds.PutSetIn{Player: player, Set: sets[0]})
	b.grind(day(-8), player, 5)
	due := b.only(player)
	if due.Passes == nil || due.Sides[0].Loss == 0 {
		t.Fatalf("nothing is foretold: %s", due.CannotSay)
	}
	// The right runner lost as much in half of the passes.
	if left, right := due.Sides[0].Loss, due.Sides[1].Loss; right < 1.2*left {
		t.Errorf("left %v, right %v mm a pass: each takes after the other, though they were never ground together", left, right)
	}
	if _, err := b.look().Buy(day(20), nil, rand.New(rand.NewPCG(1, 2))); !errors.Is(err, wear.ErrNoSchedule) {
		t.Errorf("what to buy: %v", err)
	}
}

// A set that was worn crosswise and is done with is no pair: its sides are learnt from
// one by one.
func TestCrosswiseSetsTeachOneByOne(t *testing.T) {
	b := openBench(t)
	player := b.skater(31, "goalkeeper")
	sets := b.crosswise(player)
	b.do(day(-9), deeds.PutSetIn{Player: player, Set: sets[0]})
	b.do(day(-8), deeds.TakeOut{Player: player, Reason: "low"})
	o := b.look()
	keeper, err := inventory.PlayerOf(b, player)
	if err != nil {
		t.Fatal(err)
	}
	if prior, err := o.RoleOf(keeper).PriorOf(player); err != nil || prior.Pairs != 2 {
		t.Errorf("want one for each runner of the set that is done with: %+v, %v", prior, err)
	}
}
