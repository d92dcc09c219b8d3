// Package booktest makes books for tests and holds them against a naive model.
package booktest

import (
	"path/filepath"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
)

// Noted is the instant at which test actions are noted unless they say otherwise.
func Noted() time.Time { return time.Date(2025, 9, 1, 7, 0, 0, 0, time.UTC) }

// Stamp is who and when of a test action.
func Stamp() book.Stamp { return book.Stamp{Who: "Ylva", Noted: Noted()} }

// Opening is what a test book begins with: the club.
func Opening() []inventory.Draft {
	club := &inventory.ClubNoted{Name: "Skarn Harbour Terns", Zone: "UTC", Station: 1}
	return []inventory.Draft{{Happened: inventory.At(Noted()), Body: club}}
}

// New makes a book in a folder that goes with the test. At the test's end the book is
// closed, verified, and held against the naive model.
func New(t testing.TB) *book.Book {
	t.Helper()
	return Open(t, Make(t))
}

// Make makes a book and leaves it closed.
func Make(t testing.TB) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "book")
	if err := book.Create(dir, Stamp(), Opening()); err != nil {
		t.Fatal(err)
	}
	return dir
}

// Open opens a book, to be closed and checked at the test's end.
func Open(t testing.TB, dir string) *book.Book {
	t.Helper()
	b, err := book.Open(dir, book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := b.Close(); err != nil {
			t.Error(err)
		}
		Check(t, dir)
	})
	return b
}

// Check verifies a closed book and holds it against the naive model.
func Check(t testing.TB, dir string) {
	t.Helper()
	report, err := book.VerifyHere(dir, "a test")
	if err != nil || !report.OK {
		t.Errorf("the book at %s does not verify: %v %v", dir, err, report.Problems)
		return
	}
	b, err := book.Open(dir, book.Options{ReadOnly: true})
	if err != nil {
		t.Error(err)
		return
	}
	defer b.Close()
	CheckFold(t, b)
}

// Record records drafts as one action and must not fail.
func Record(t testing.TB, b *book.Book, drafts ...inventory.Draft) []inventory.Event {
	t.Helper()
	events, err := b.Record(Stamp(), func(inventory.View) ([]inventory.Draft, error) { return drafts, nil })
	if err != nil {
		t.Fatal(err)
	}
	return events
}

// Decide decides on one more event of the club.
func Decide(inventory.View) ([]inventory.Draft, error) { return Opening(), nil }
