package book_test

import (
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
