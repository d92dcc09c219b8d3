package inventory

import (
	"maps"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// snapshot is every state of a record as JSON, in order of ref.
func snapshot(t *testing.T, l *Ledger) string {
	t.Helper()
	var all strings.Builder
	for _, ref := range slices.Sorted(maps.Keys(l.states)) {
		all.WriteString(string(ref) + " " + asJSON(t, l.states[ref]) + "\n")
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
		var l Ledger
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
	var seen []Number
	c.Each(KindRunner, func(n Number, state Entity) bool {
		if state.(*Runner).Number != n {
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
	ahead := Key{secondWriter, 7}
	c.note(Draft{when(t, "2 09:00"), &Correction{Words: "too early", Voids: []Key{ahead}}})
	c.Add(Event{Key: ahead, Logical: 9000, Happened: when(t, "2 10:00"), Noted: theNow, Body: &Placed{[]Number{c.left}, Place{Name: "bin"}}})
	if got := c.holder(c.left).Place(theNow).Name; got != "bin" {
		t.Errorf("it lies at %q", got)
	}
}
