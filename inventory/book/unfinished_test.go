package book_test

import (
	"bytes"
	"errors"
	"fmt"
	"math/rand/v2"
	"testing"

	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// An action that was cut off anywhere is either there whole or gone whole.
func TestUnfinishedActionIsCut(t *testing.T) {
	before, after := aBook(t, 1)
	for length := len(before.journal); length < len(after.journal); length += 1 + rand.IntN(20) {
		f := files{after.journal[:length], before.db}
		checkUnfinished(t, f, uint64(lines(before.journal)), length == len(before.journal))
	}
	dir := files{after.journal, before.db}.write(t)
	if events, err := opens(t, dir); err != nil || events != uint64(lines(after.journal)) {
		t.Errorf("an action that book.db lacks: %d events, %v", events, err)
	}
	booktest.Check(t, dir)
}

func checkUnfinished(t *testing.T, f files, events uint64, whole bool) {
	t.Helper()
	dir := f.write(t)
	report, err := book.VerifyHere(dir, "the test")
	if err != nil || !report.OK || (len(report.Notes) == 0) != whole {
		t.Errorf("%d bytes: %+v, %v", len(f.journal), report, err)
	}
	reader, err := book.Open(dir, book.Options{ReadOnly: true})
	if err != nil {
		t.Fatalf("%d bytes, for reading: %v", len(f.journal), err)
	}
	if err := reader.Close(); err != nil {
		t.Fatal(err)
	}
	if got, err := opens(t, dir); err != nil || got != events {
		t.Errorf("%d bytes: %d events, want %d: %v", len(f.journal), got, events, err)
	}
	if after := filesOf(t, dir); lines(after.journal) != int(events) {
		t.Errorf("%d bytes: %d lines are left", len(f.journal), lines(after.journal))
	}
}

// A power cut leaves holes where sectors never came.
func TestActionWithHolesIsCut(t *testing.T) {
	before, after := aBook(t, 2)
	for from := len(before.journal); from < len(after.journal); from += 1 + rand.IntN(50) {
		f := files{after.clone().journal, before.db}
		sector := from / 512 * 512
		clear(f.journal[max(sector, len(before.journal)):min(sector+512, len(f.journal))])
		checkUnfinished(t, f, uint64(lines(before.journal)), false)
	}
}

// What was acknowledged and is changed is no unfinished action. Opening looks at the
// lines that book.db lacks and at the one before; verify at all.
func TestChangedEndIsDamage(t *testing.T) {
	before, after := aBook(t, 3)
	lastLine := bytes.LastIndexByte(after.journal[:len(after.journal)-1], '\n') + 1
	for range 100 {
		checkChanged(t, files{after.journal, before.db}, len(before.journal))
		checkChanged(t, files{after.journal, after.db}, lastLine)
	}
}

// checkChanged changes a bit of the journal somewhere after a place.
func checkChanged(t *testing.T, f files, from int) {
	t.Helper()
	f = f.clone()
	at := from + rand.IntN(len(f.journal)-from-1)
	if f.journal[at] ^= 1 << rand.IntN(7); f.journal[at] != 0 {
		checkDamaged(t, f, fmt.Sprintf("byte %d changed", at))
	}
}

func checkDamaged(t *testing.T, f files, what string) {
	t.Helper()
	dir := f.write(t)
	report, err := book.VerifyHere(dir, "the test")
	if err != nil || report.OK || len(report.Problems) == 0 {
		t.Errorf("%s: verify says %+v, %v", what, report, err)
	}
	var damage *book.DamageError
	for _, readOnly := range []bool{true, false} {
		b, err := book.Open(dir, book.Options{ReadOnly: readOnly})
		if !errors.As(err, &damage) {
			t.Errorf("%s: opened with %v", what, err)
		}
		if err == nil {
			_ = b.Close()
		}
	}
	is := filesOf(t, dir)
	if string(is.journal) != string(f.journal) || string(is.db) != string(f.db) {
		t.Errorf("%s: something was changed", what)
	}
}

func TestLostEndIsDamage(t *testing.T) {
	before, after := aBook(t, 4)
	for _, lost := range []int{1, 2, 100, len(after.journal) - len(before.journal), len(after.journal) - 1} {
		f := after.clone()
		f.journal = f.journal[:len(f.journal)-lost]
		checkDamaged(t, f, "the journal's end is lost")
	}
	for _, kept := range []int{10, 4096, 8192, book.UsedBytes(after.db) - 1} {
		f := after.clone()
		f.db = f.db[:kept]
		checkDamaged(t, f, "the end of book.db is lost")
	}
}
