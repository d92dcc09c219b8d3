package book_test

import (
	"errors"
	"testing"

	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// withoutMeta changes a byte of the newest or the older of the two meta pages, so that
// bbolt goes by the other one.
func withoutMeta(f files, newest bool) files {
	f = f.clone()
	at := 0
	if book.NewestMeta(f.db) == 1 == newest {
		at = pageBytes
	}
	f.db[at+16+50] ^= 1
	return f
}

// bbolt drops its last transaction in silence where its newest meta page is lost. The
// journal has it, so nothing is missing; verify says so until the page is written anew.
func TestLostMetaPageIsMadeUpFromTheJournal(t *testing.T) {
	_, after := aBook(t, 6)
	dir := withoutMeta(after, true).write(t)
	if report, err := book.VerifyHere(dir, "the test"); err != nil || report.OK {
		t.Errorf("%+v, %v", report, err)
	}
	if events, err := opens(t, dir); err != nil || events != uint64(lines(after.journal)) {
		t.Errorf("%d events, want %d: %v", events, lines(after.journal), err)
	}
	booktest.Check(t, dir)
}

// Where the journal has lost its end as well, nothing could tell but that the page is
// damaged: the book is refused, and does not go on as if the last action never was.
func TestLostMetaPageAndLostEndAreDamage(t *testing.T) {
	before, after := aBook(t, 7)
	for _, length := range []int{len(before.journal), len(after.journal) - 10} {
		f := withoutMeta(after, true)
		f.journal = f.journal[:length]
		dir := f.write(t)
		var damage *book.DamageError
		if _, err := opens(t, dir); !errors.As(err, &damage) {
			t.Errorf("opened: %v", err)
		}
		if report, err := book.VerifyHere(dir, "the test"); err != nil || report.OK {
			t.Errorf("%+v, %v", report, err)
		}
	}
	checkDamaged(t, withoutMeta(after, false), "the older meta page is lost")
	neither := withoutMeta(after, false)
	copy(neither.db[:pageBytes], make([]byte, pageBytes))
	copy(neither.db[pageBytes:2*pageBytes], make([]byte, pageBytes))
	checkDamaged(t, neither, "both meta pages are lost")
}
