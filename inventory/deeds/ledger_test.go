package deeds

import (
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/inventorytest"
)

// snapshot is every state of a record as JSON, in order of ref.
func snapshot(t *testing.T, l *inventory.Ledger) string {
	t.Helper()
	var all strings.Builder
	for _, ref := range slices.Sorted(maps.Keys(l.States())) {
		all.WriteString(string(ref) + " " + inventorytest.AsJSON(t, l.States()[ref]) + "\n")
	}
	return all.String()
}

func TestTheOrderInWhichEventsArriveMakesNoDifference(t *testing.T) {
	c, other := twoStations(t)
	spare := c.give(AddPair{c.bo, "spare"})
	other.do("4 06:00", Grind{Player: c.bo})
	undone := c.change("4 12:00", c.setB, "rotate")
	other.do("4 12:05", ChangeSteel{TakeOut{Player: c.bo, Reason: "rotate"}, c.setC})
	c.do("4 13:00", undo(undone))
	c.do("5 09:00", PutSetIn{Player: c.bo, Set: c.setB, Pair: spare})
	c.merge(other)
	want := snapshot(t, &c.Ledger)
	random := rand.New(rand.NewPCG(4, 4))
	for range 20 {
		events := slices.Clone(c.Events())
		random.Shuffle(len(events), func(i, j int) { events[i], events[j] = events[j], events[i] })
		var l inventory.Ledger
		for _, e := range events {
			l.Add(*e, *e) // and each twice
		}
		if got := snapshot(t, &l); got != want {
			t.Fatalf("in another order the state is\n%s\nwant\n%s", got, want)
		}
	}
}

func TestPiecesInOrderOfNumber(t *testing.T) {
	c := openClubhouse(t)
	var seen []inventory.Number
	c.Each(inventory.KindRunner, func(n inventory.Number, state inventory.Entity) bool {
		if state.(*inventory.Runner).Number != n {
			t.Errorf("%s is %T", n.Short(), state)
		}
		seen = append(seen, n)
		return len(seen) < 7
	})
	if !slices.IsSorted(seen) || len(seen) != 7 {
		t.Errorf("seen %v", seen)
	}
}

func TestACorrectionCountsOnlyAfterWhatItVoids(t *testing.T) {
	c := openClubhouse(t)
	ahead := inventory.Key{Writer: inventorytest.SecondWriter, Sequence: 7}
	c.note(inventory.Draft{Happened: when(t, "2 09:00"), Body: &inventory.Correction{Words: "too early", Voids: []inventory.Key{ahead}}})
	c.Add(inventory.Event{Key: ahead, Logical: 9000, Happened: when(t, "2 10:00"), Noted: theNow, Body: &inventory.Placed{Pieces: []inventory.Number{c.left}, Place: inventory.Place{Name: "bin"}}})
	if got := c.holder(c.left).Place(theNow).Name; got != "bin" {
		t.Errorf("it lies at %q", got)
	}
}
