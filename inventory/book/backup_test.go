package book_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// A backup takes the place of an older backup of the same book, and of nothing else.
func TestBackupReplacesNothingBetter(t *testing.T) {
	dir := booktest.Make(t)
	drive(t, dir, 51, 16)
	ahead := booktest.Open(t, dir)
	folder := t.TempDir()
	path := func(name string) string { return filepath.Join(folder, name) }
	if _, err := ahead.Backup(path("terns.zip")); err != nil {
		t.Fatal(err)
	}
	behind, _ := rebuilt(t, path("terns.zip"))
	booktest.Record(t, ahead, booktest.Opening()...)
	if _, err := ahead.Backup(path("terns.zip")); err != nil {
		t.Fatal("over an older one:", err)
	}
	if _, err := ahead.Backup(path("terns.zip")); err != nil {
		t.Fatal("over the same:", err)
	}
	whole, err := os.ReadFile(path("terns.zip"))
	if err != nil {
		t.Fatal(err)
	}
	others := map[string][]byte{
		"better.zip": whole, "cut.zip": whole[:len(whole)/2], "damaged.zip": bytes.Replace(whole, []byte("PK\x01\x02"), []byte("PK\x01\x03"), 1),
		"letter.txt": []byte("Dear Ylva,\n"), "empty.zip": nil,
	}
	lags, other := booktest.Open(t, behind), booktest.New(t)
	for name, data := range others {
		if err := os.WriteFile(path(name), data, 0o600); err != nil {
			t.Fatal(err)
		}
		for whose, b := range map[string]*book.Book{"an older book": lags, "another book": other} {
			_, err := b.Backup(path(name))
			var refusal *inventory.Refusal
			if is, failed := os.ReadFile(path(name)); !errors.As(err, &refusal) || failed != nil || !bytes.Equal(is, data) {
				t.Errorf("%s over %s: %v, %v", whose, name, err, failed)
			}
		}
	}
	left, err := os.ReadDir(folder)
	if err != nil || len(left) != len(others)+1 {
		t.Error("something was left:", left, err)
	}
}

// What a program left that was killed amid making something is cleared when something is
// made there next; what another program has in the making stays.
func TestWhatWasLeftIsCleared(t *testing.T) {
	folder := t.TempDir()
	for _, name := range []string{".terns.zip.making-1123", ".book.making-77/photos", ".hand.making-x", ".making-12"} {
		if err := os.MkdirAll(filepath.Join(folder, name), 0o700); err != nil {
			t.Fatal(err)
		}
	}
	held, err := book.Hold(filepath.Join(folder, "away.zip"))
	if err != nil {
		t.Fatal(err)
	}
	defer held.Close()
	b := booktest.New(t)
	if err := os.Mkdir(filepath.Join(b.Dir(), ".merging.making-5"), 0o700); err != nil {
		t.Fatal(err)
	}
	if _, err := b.Backup(filepath.Join(folder, "terns.zip")); err != nil {
		t.Fatal(err)
	}
	var names []string
	left, err := os.ReadDir(folder)
	for _, entry := range left {
		names = append(names, entry.Name())
	}
	if err != nil || len(names) != 4 || names[0] != ".hand.making-x" || names[1] != ".making-12" || names[2] != filepath.Base(held.Name()) || names[3] != "terns.zip" {
		t.Error(names, err)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	booktest.Open(t, b.Dir())
	if _, err := os.Stat(filepath.Join(b.Dir(), ".merging.making-5")); !os.IsNotExist(err) {
		t.Error("a merge's folder was left in the book:", err)
	}
}

// What is made has a hidden name until it is whole; what can't be made is told by the name
// that was asked for.
func TestWhatCannotBeMadeIsToldByItsName(t *testing.T) {
	b := booktest.Open(t, booktest.Make(t))
	var unmade *book.UnmadeError
	if _, err := b.Backup("/proc/terns.zip"); !errors.As(err, &unmade) || err.Error() != "/proc/terns.zip can't be written: no such file or directory" {
		t.Errorf("a backup: %v", err)
	}
	err := book.Create("/proc/terns", booktest.Stamp(), []inventory.Draft{{Body: &inventory.ClubNoted{Name: "Skarn Harbour Terns", Zone: "UTC"}}})
	if !errors.As(err, &unmade) || strings.Contains(err.Error(), ".making-") {
		t.Errorf("a book: %v", err)
	}
}
