package book_test

import (
	"errors"
	"testing"

	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

func TestStatesOfAnotherFoldAreMadeAnew(t *testing.T) {
	for _, readOnly := range []bool{true, false} {
		dir := booktest.Make(t)
		drive(t, dir, 11, 200)
		if err := book.Age(dir); err != nil {
			t.Fatal(err)
		}
		b, err := book.Open(dir, book.Options{ReadOnly: readOnly})
		if err != nil {
			t.Fatal(err)
		}
		booktest.CheckFold(t, b)
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
		booktest.Check(t, dir)
	}
}

// A state that is as it was stored, but that this version cannot read, is folded anew
// when it is looked at.
func TestUnreadableStatesAreFoldedWhenLookedAt(t *testing.T) {
	dir := booktest.Make(t)
	drive(t, dir, 12, 200)
	if err := errors.Join(book.Settle(dir), book.Rot(dir)); err != nil {
		t.Fatal(err)
	}
	booktest.Check(t, dir)
	drive(t, dir, 13, 40)
	booktest.Check(t, dir)
}
