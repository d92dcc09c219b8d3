//go:build outside

package book_test

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"golang.org/x/sys/unix"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// A disk of its own, three megabytes in memory, is filled by the book itself and then
// by another file. It needs the right to mount.
func TestFullDiskOfItsOwn(t *testing.T) {
	disk := t.TempDir()
	if err := unix.Mount("tmpfs", disk, "tmpfs", 0, "size=3m"); err != nil {
		t.Fatal("no small disk can be mounted: ", err)
	}
	defer func() {
		if err := unix.Unmount(disk, 0); err != nil {
			t.Error(err)
		}
	}()
	dir := filepath.Join(disk, "book")
	if err := book.Create(dir, booktest.Stamp(), booktest.Opening()); err != nil {
		t.Fatal(err)
	}
	ballast := filepath.Join(disk, "ballast")
	if err := os.WriteFile(ballast, make([]byte, 1<<20), 0o600); err != nil {
		t.Fatal(err)
	}
	recorded := fillDisk(t, dir)
	if err := os.Remove(ballast); err != nil {
		t.Fatal(err)
	}
	if count := countOf(t, dir); count != 1+recorded {
		t.Errorf("%d events were acknowledged, %d are there", recorded, count-1)
	}
	b, err := book.Open(dir, book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	booktest.Record(t, b, booktest.Opening()...)
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	booktest.Check(t, dir)
}

// fillDisk records until the disk is said to be full, and tells how many events were
// acknowledged.
func fillDisk(t *testing.T, dir string) uint64 {
	t.Helper()
	b, err := book.Open(dir, book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	for recorded := uint64(0); recorded < 20_000; recorded++ {
		_, err := b.Record(booktest.Stamp(), func(inventory.View) ([]inventory.Draft, error) { return booktest.Opening(), nil })
		var full *book.FullError
		if errors.As(err, &full) {
			return recorded
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	t.Fatal("the disk never was full")
	return 0
}
