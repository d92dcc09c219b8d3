package desk

import (
	"errors"
	"sync"
	"sync/atomic"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// Of several who take the last entry back at once, one does, and the others are told;
// what he did can be taken back, and the entry stands again.
func TestOneEntryIsTakenBackOnce(t *testing.T) {
	const windows = 6
	var steps atomic.Int64
	clock := func() time.Time { return theNow.Add(time.Duration(steps.Add(1)) * time.Millisecond) }
	d, err := Open(Options{Book: newSeason(t, 2).path, Now: clock})
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	for round := range 10 {
		steps.Add(time.Minute.Milliseconds())
		ground, err := d.Grind([]string{"2"}, nil, "", deeds.Grind{})
		if err != nil {
			t.Fatal(err)
		}
		entry := ground.Events[0].Key
		meant := []Correction{{}, {About: "2"}, {Keys: []string{entry.String()}}, {About: "2", Last: 1, WasPlayer: "3"}}[round%4]
		meant.Given = clock()
		var all sync.WaitGroup
		done, errs := make([]Done, windows), make([]error, windows)
		for window := range windows {
			all.Go(func() { done[window], errs[window] = d.Correct(meant) })
		}
		all.Wait()
		var by inventory.Key
		told := 0
		for window, err := range errs {
			var taken *TakenBackError
			switch {
			case errors.As(err, &taken):
				told++
			case err != nil:
				t.Fatal(err)
			default:
				by = done[window].Events[0].Key
			}
		}
		if told != windows-1 {
			t.Fatalf("%+v: %d of %d were told that it is taken back", meant, told, windows)
		}
		if _, err := d.Correct(Correction{Keys: []string{by.String()}}); err != nil && meant.WasPlayer == "" {
			t.Fatal(err)
		}
		if found, err := d.book.Find(entry); err != nil || meant.WasPlayer == "" && found.VoidedBy != nil {
			t.Fatalf("%+v: the entry stays taken back by %v, %v", meant, found.VoidedBy, err)
		}
	}
}
