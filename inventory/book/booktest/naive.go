package booktest

import (
	"encoding/json"
	"slices"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
)

// naive holds every event in memory and folds by the plainest reading of the rule.
type naive struct {
	events []inventory.Event
	at     map[inventory.Key]int // place in events
	voids  map[inventory.Key][]int
	void   []int // what voids each event, or -1
	sets   []int // those that set a clock right
}

func newNaive(events []inventory.Event) *naive {
	n := &naive{events: events, at: map[inventory.Key]int{}, voids: map[inventory.Key][]int{}, void: make([]int, len(events))}
	for i := range events {
		n.at[events[i].Key] = i
		if _, sets := events[i].Body.(*inventory.ClockSet); sets {
			n.sets = append(n.sets, i)
		}
		for _, key := range inventory.Voids(&events[i]) {
			n.voids[key] = append(n.voids[key], i)
		}
	}
	for place := len(events) - 1; place >= 0; place-- {
		n.void[place] = n.firstVoiding(place)
	}
	return n
}

// firstVoiding is the first correction after an event that voids it and counts, or -1.
// What voids the later ones is known already.
func (n *naive) firstVoiding(place int) int {
	for _, by := range n.voids[n.events[place].Key] {
		if by > place && n.void[by] < 0 {
			return by
		}
	}
	return -1
}

func (n *naive) voidedBy(place int) int { return n.void[place] }

// timed is an event at its time by a right clock: all that counts and names it is added up.
func (n *naive) timed(place int) *inventory.Event {
	e := n.events[place]
	for _, i := range n.sets {
		set := n.events[i].Body.(*inventory.ClockSet)
		if set.Of != e.Writer || n.voidedBy(i) >= 0 {
			continue
		}
		for _, run := range set.Entries {
			if e.Sequence >= run.First && e.Sequence < run.First+run.Count {
				by := time.Duration(set.By) * time.Second
				e.Noted = e.Noted.Add(by)
				e.Happened = inventory.Between(e.Happened.Start.Add(by), e.Happened.End.Add(by))
			}
		}
	}
	return &e
}

// touching lists the events of every thing.
func (n *naive) touching() map[inventory.Ref][]int {
	things := map[inventory.Ref][]int{}
	for i := range n.events {
		for _, ref := range inventory.TouchedOnce(&n.events[i]) {
			things[ref] = append(things[ref], i)
		}
	}
	return things
}

func (n *naive) fold(ref inventory.Ref, places []int) inventory.Entity {
	state := inventory.NewEntity(ref)
	counting := 0
	for _, place := range places {
		if state != nil && n.voidedBy(place) < 0 {
			state.Apply(n.timed(place))
			counting++
		}
	}
	if counting == 0 {
		return nil
	}
	return state
}

// CheckFold holds every state, every history and every voided line of a book against
// the naive model. The book must have at least one event.
func CheckFold(t testing.TB, b *book.Book) {
	t.Helper()
	var events []inventory.Event
	err := b.All(func(e inventory.Event, _ []byte) error {
		events = append(events, e)
		return nil
	})
	if err != nil {
		t.Error(err)
	}
	if len(events) == 0 {
		t.Error("a book without events")
	}
	if !slices.IsSortedFunc(events, func(a, b inventory.Event) int { return inventory.CompareOrder(&a, &b) }) {
		t.Error("the events do not come in fold order")
	}
	n := newNaive(events)
	var flagged []inventory.Ref
	for ref, places := range n.touching() {
		if t.Failed() {
			return // one difference is enough to read
		}
		state := n.fold(ref, places)
		if ref.Number() != 0 && inventory.IsFlagged(state) {
			flagged = append(flagged, ref)
		}
		checkState(t, b, ref, state)
		n.checkHistory(t, b, ref, places)
	}
	checkFlags(t, b, flagged)
}

// checkFlags holds the pieces that a book lists as flagged against those that are.
func checkFlags(t testing.TB, b *book.Book, want []inventory.Ref) {
	t.Helper()
	slices.Sort(want)
	if got := FlaggedPieces(t, b); !slices.Equal(got, want) {
		t.Errorf("flagged are %v, want %v", got, want)
	}
}

// FlaggedPieces lists the pieces that flags are about, in order of number.
func FlaggedPieces(t testing.TB, b *book.Book) []inventory.Ref {
	t.Helper()
	var refs []inventory.Ref
	err := b.Read(func(v inventory.View) error {
		for _, flag := range inventory.Flags(v) {
			refs = append(refs, inventory.RefOf(flag.About))
		}
		return nil
	})
	if err != nil {
		t.Error(err)
	}
	slices.Sort(refs)
	return slices.Compact(refs)
}

func checkState(t testing.TB, b *book.Book, ref inventory.Ref, state inventory.Entity) {
	t.Helper()
	want, err := json.Marshal(state)
	if err != nil {
		t.Error(err)
	}
	var got []byte
	err = b.Read(func(v inventory.View) (err error) {
		got, err = json.Marshal(v.Entity(ref))
		return err
	})
	if err != nil {
		t.Errorf("%s: %v", ref, err)
	}
	if string(got) != string(want) {
		at := difference(got, want)
		t.Errorf("%s: the stored state differs from a full refold after %q\ngot  %.200s\nwant %.200s", ref, got[max(0, at-80):at], got[at:], want[at:])
	}
}

// difference is how many bytes two texts have in common at their start.
func difference(a, b []byte) int {
	at := 0
	for at < len(a) && at < len(b) && a[at] == b[at] {
		at++
	}
	return at
}

func (n *naive) checkHistory(t testing.TB, b *book.Book, ref inventory.Ref, places []int) {
	t.Helper()
	history, err := b.History(ref, 0)
	if err != nil || len(history) != len(places) {
		t.Errorf("%s: a history of %d events (%v), want %d", ref, len(history), err, len(places))
		return
	}
	for i, shown := range history {
		by := n.voidedBy(places[i])
		if timed := n.timed(places[i]); shown.Happened != timed.Happened || !shown.Noted.Equal(timed.Noted) {
			t.Errorf("%s: the history shows %v at %v, want %v", ref, shown.Key, shown.Happened, timed.Happened)
		}
		if shown.Key != n.events[places[i]].Key || (by >= 0) != (shown.VoidedBy != nil) {
			t.Errorf("%s: the history shows %v (voided %v) where %v (voided %v) is",
				ref, shown.Key, shown.VoidedBy != nil, n.events[places[i]].Key, by >= 0)
		}
		if by >= 0 && shown.VoidedBy != nil && *shown.VoidedBy != n.events[by].Key {
			t.Errorf("%s: %v is voided by %v, the history says %v", ref, shown.Key, n.events[by].Key, *shown.VoidedBy)
		}
	}
}
