package outlook

import (
	"errors"
	"math/rand/v2"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/wear"
)

// busy is a player whose steel gets five passes a day: about 24 passes are left on it, a
// new set lasts about 164.
func (b *bench) busy(days int) inventory.Number {
	b.t.Helper()
	player := b.skater(17, "defence")
	b.worn(player, b.steel(player, "Skua R"), 20)
	for n := -4; n < days; n++ {
		b.session(day(n).Add(time.Hour), false)
		if n < 0 {
			b.grind(day(n), player, 5)
		}
	}
	b.measure(day(-1).Add(2*time.Hour), player, inventory.Fitted, 8.91)
	return player
}

func (b *bench) buy(days int, shelf map[Fit]int) BuyList {
	b.t.Helper()
	list, err := b.look().Buy(day(days), shelf, rand.New(rand.NewPCG(1, 2)))
	if err != nil {
		b.t.Fatal(err)
	}
	return list
}

// TestBuyWhatIsMissing counts the sets that come off, less what is ready and on the shelf.
func TestBuyWhatIsMissing(t *testing.T) {
	b := openBench(t)
	player := b.busy(80)
	fit := Fit{"Skua R", 280, 280}
	list := b.buy(79, nil)
	if len(list.Needs) != 1 || list.Needs[0].Fit != fit || list.Needs[0].Players != 1 {
		t.Fatalf("needs %+v", list.Needs)
	}
	n := list.Needs[0]
	// 80 days of 5 passes: due after about 24, then every 164: at 24, 188 and 352.
	if n.Changes.Middle < 2 || n.Changes.Middle > 3 || n.Changes.Low > n.Changes.Middle || n.Changes.High < n.Changes.Middle {
		t.Errorf("sets come off: %+v", n.Changes)
	}
	if n.Buy != n.Changes || n.Ready != 0 || n.Shelf != 0 {
		t.Errorf("nothing is there, and yet %+v is bought of %+v", n.Buy, n.Changes)
	}
	if n.Short.Before(midnight(day(2).In(n.Short.Location()))) || n.Short.After(day(6)) {
		t.Errorf("short on %v, want about the fifth day", n.Short)
	}
	b.steel(player, "Skua R")
	if one := b.buy(79, nil).Needs[0]; one.Ready != 1 || one.Buy.Middle != n.Buy.Middle-1 || !one.Short.After(n.Short) {
		t.Errorf("with a set ready: %+v", one)
	}
	if shelf := b.buy(79, map[Fit]int{fit: 5}).Needs[0]; shelf.Shelf != 2 || shelf.Buy.Middle != 0 {
		t.Errorf("with five runners on the shelf: %+v", shelf)
	}
}

// TestStockRunsDown starts with what is there, falls, and widens.
func TestStockRunsDown(t *testing.T) {
	b := openBench(t)
	player := b.busy(80)
	b.steel(player, "Skua R")
	list := b.buy(79, map[Fit]int{{"Skua R", 280, 280}: 4})
	first, last := list.Left[0], list.Left[len(list.Left)-1]
	if first.Middle != 3 || last.Middle >= first.Middle || last.High-last.Low < first.High-first.Low || len(list.Days) != len(list.Left) {
		t.Errorf("from %+v to %+v over %d days", first, last, len(list.Days))
	}
}

// TestBuyListIsRepeatable, and needs a schedule.
func TestBuyListIsRepeatable(t *testing.T) {
	b := openBench(t)
	b.busy(60)
	one, other := b.buy(50, nil).Needs[0], b.buy(50, nil).Needs[0]
	if one.Changes != other.Changes || one.Buy != other.Buy || !one.Short.Equal(other.Short) {
		t.Errorf("%+v and %+v", one, other)
	}
	if list := b.buy(400, nil); !list.Until.Before(day(60)) {
		t.Errorf("the schedule ends before %v", list.Until)
	}
	empty := openBench(t)
	player := empty.skater(17, "defence")
	empty.worn(player, empty.steel(player, "Skua R"), 20)
	if _, err := empty.look().Buy(day(30), nil, rand.New(rand.NewPCG(1, 2))); !errors.Is(err, wear.ErrNoSchedule) {
		t.Errorf("without a schedule: %v", err)
	}
}
