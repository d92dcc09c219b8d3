package book_test

import (
	"encoding/json"
	"slices"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// noted counts in a book the notes of an inspection that count.
func noted(t *testing.T, b *book.Book) map[string]int {
	t.Helper()
	counts := map[string]int{}
	err := b.All(func(e inventory.Event, _ []byte) error {
		if look, ok := e.Body.(*inventory.Inspected); ok {
			counts[look.Note]++
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return counts
}

// look is an inspection with words by which it is known again.
func look(t *testing.T, words string) inventory.Draft {
	t.Helper()
	n, err := inventory.NewNumber(inventory.KindRunner, 1, 1)
	if err != nil {
		t.Fatal(err)
	}
	return inventory.Draft{Happened: inventory.At(booktest.Noted().Add(time.Hour)), Body: &inventory.Inspected{Pieces: []inventory.Number{n}, Sound: true, Note: words}}
}

func mergeInto(t *testing.T, b *book.Book, from string) {
	t.Helper()
	if _, err := b.Merge(book.Other{From: from, Program: "the test"}); err != nil {
		t.Fatal(err)
	}
}

// takeAll takes in everything that is set aside, and tells how many actions that were.
func takeAll(t *testing.T, b *book.Book) int {
	t.Helper()
	asides, err := b.Asides()
	if err != nil {
		t.Fatal(err)
	}
	actions := book.ActionsOf(asides)
	for range 2 { // given again it is recorded once
		for _, action := range actions {
			if _, err := b.TakeAside(action, booktest.Noted()); err != nil {
				t.Fatal(err)
			}
		}
	}
	return len(actions)
}

// Two copies of one writer went on, each is merged into the other, and each takes in what
// was set aside: both have every entry, once, whoever takes in first and how often they
// are merged.
func TestWhatWasSetAsideIsTakenInOnce(t *testing.T) {
	for _, both := range []bool{false, true} {
		here := booktest.Make(t)
		older := filesOf(t, here)
		b := booktest.Open(t, here)
		booktest.Record(t, b, look(t, "first"), look(t, "second"))
		booktest.Record(t, b, look(t, "third"))
		closed(t, b)
		there := filesOf(t, here).write(t)
		older.restore(t, here)
		b = booktest.Open(t, here)
		one := booktest.Record(t, b, look(t, "fourth"))
		booktest.Record(t, b, inventory.Draft{Happened: inventory.At(booktest.Noted()), Body: &inventory.Correction{Words: "not so", Voids: []inventory.Key{one[0].Key}}})
		mergeInto(t, b, there)
		other := booktest.Open(t, there)
		closed(t, b)
		mergeInto(t, other, here)
		if count := takeAll(t, other); count != 2 {
			t.Errorf("%d actions were set aside there", count)
		}
		closed(t, other)
		b = booktest.Open(t, here)
		if both {
			if count := takeAll(t, b); count != 2 {
				t.Errorf("%d actions were set aside here", count)
			}
		}
		mergeInto(t, b, there)
		if !both {
			takeAll(t, b)
		}
		closed(t, b)
		other = booktest.Open(t, there)
		mergeInto(t, other, here)
		closed(t, other)
		b = booktest.Open(t, here)
		mergeInto(t, b, there)
		closed(t, b)
		for _, dir := range []string{here, there} {
			b := booktest.Open(t, dir)
			if counts := noted(t, b); len(counts) != 4 || slices.Max([]int{counts["first"], counts["second"], counts["third"], counts["fourth"]}) != 1 {
				t.Errorf("both take in: %v: %v", both, counts)
			}
			if asides, err := b.Asides(); err != nil || len(asides) > 0 {
				t.Errorf("still set aside: %v, %v", asides, err)
			}
			if sound := soundLooks(t, b); sound != 3 {
				t.Errorf("%d looks count, and one of four was taken back", sound)
			}
			closed(t, b)
			booktest.Check(t, dir)
		}
	}
}

// soundLooks counts the looks that nothing voids.
func soundLooks(t *testing.T, b *book.Book) (count int) {
	t.Helper()
	n, err := inventory.NewNumber(inventory.KindRunner, 1, 1)
	if err != nil {
		t.Fatal(err)
	}
	entries, err := b.History(inventory.RefOf(n), 0)
	if err != nil {
		t.Fatal(err)
	}
	for _, entry := range entries {
		if _, ok := entry.Body.(*inventory.Inspected); ok && entry.VoidedBy == nil {
			count++
		}
	}
	return count
}

// What a person puts away is not shown again, also after it was set aside once more.
func TestWhatWasSetAsideIsDropped(t *testing.T) {
	dir := booktest.Make(t)
	older := filesOf(t, dir)
	b := booktest.Open(t, dir)
	booktest.Record(t, b, look(t, "first"))
	closed(t, b)
	there := filesOf(t, dir).write(t)
	older.restore(t, dir)
	b = booktest.Open(t, dir)
	booktest.Record(t, b, look(t, "second"))
	mergeInto(t, b, there)
	asides, err := b.Asides()
	if err != nil || len(asides) != 1 {
		t.Fatalf("%v, %v", asides, err)
	}
	if err := b.DropAside(asides); err != nil {
		t.Fatal(err)
	}
	mergeInto(t, b, there)
	if asides, err := b.Asides(); err != nil || len(asides) > 0 {
		t.Errorf("after it was put away: %v, %v", asides, err)
	}
	if kept, err := b.SetAside(); err != nil || len(kept) != 1 || !kept[0].Dropped || !json.Valid(kept[0].Event) {
		t.Errorf("kept is %+v, %v", kept, err)
	}
}

// A crafted entry that says it was taken in from another station's keeps that one out
// only where it says the same.
func TestCraftedTwinKeepsNothingOut(t *testing.T) {
	here := booktest.Make(t)
	there := filesOf(t, here).write(t)
	other := booktest.Open(t, there)
	booktest.Record(t, other, look(t, "true"))
	var line []byte
	var key inventory.Key
	_ = other.All(func(e inventory.Event, l []byte) error {
		line, key = slices.Clone(l), e.Key
		return nil
	})
	closed(t, other)
	b := booktest.Open(t, here)
	sum := string(line[len(line)-10 : len(line)-2])
	whole, _ := key.MarshalText()
	forged := sealed(crafted, 1, 2, `"happened":"2025-11-05T07:00:00Z","noted":"2025-11-05T07:00:00Z","ticket":"set-aside `+string(whole)+` `+sum+`","kind":"session","body":{"month":"schedule/2025-11"}`)
	if sum, err := b.Merge(book.Other{From: withLines(t, b, forged), Program: "the test"}); err != nil || sum.Added != 1 {
		t.Fatalf("%+v, %v", sum, err)
	}
	mergeInto(t, b, there)
	if counts := noted(t, b); counts["true"] != 1 {
		t.Errorf("what another station wrote: %v", counts)
	}
}
