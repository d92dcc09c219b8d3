package book_test

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"golang.org/x/sys/unix"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// appendOnASmallDisk records until no file can grow any more, and says how many
// actions were acknowledged. The limit is the system's own on the length of files.
func appendOnASmallDisk(dir string) error {
	info, err := os.Stat(filepath.Join(dir, "book.db"))
	if err != nil {
		return err
	}
	limit := unix.Rlimit{Cur: uint64(info.Size()) + 50_000, Max: unix.RLIM_INFINITY}
	if err := unix.Setrlimit(unix.RLIMIT_FSIZE, &limit); err != nil {
		return err
	}
	b, err := book.Open(dir, book.Options{})
	if err != nil {
		return err
	}
	for count := 0; count < 100_000; count++ {
		_, err := b.Record(booktest.Stamp(), func(inventory.View) ([]inventory.Draft, error) { return booktest.Opening(), nil })
		if err == nil {
			continue
		}
		fmt.Println(count)
		var unknown *book.UnknownError
		if !errors.As(err, &unknown) {
			return fmt.Errorf("the outcome should be unknown: %w", err)
		}
		if _, again := b.Record(booktest.Stamp(), nil); !errors.As(again, &unknown) {
			return fmt.Errorf("the book should be unusable: %w", again)
		}
		return b.Close()
	}
	return errors.New("the limit was never met")
}

func TestFullDiskIsClean(t *testing.T) {
	dir := booktest.Make(t)
	for range 3 {
		before := countOf(t, dir)
		out, err := child("small", dir).Output()
		if err != nil {
			t.Fatal(err)
		}
		var acknowledged uint64
		if _, err := fmt.Sscan(string(out), &acknowledged); err != nil || acknowledged == 0 {
			t.Fatalf("%q: %v", out, err)
		}
		if after := countOf(t, dir); after < before+acknowledged || after > before+acknowledged+1 {
			t.Errorf("%d events, %d acknowledged, then %d", before, acknowledged, after)
		}
		booktest.Check(t, dir)
	}
}

func countOf(t *testing.T, dir string) uint64 {
	t.Helper()
	b, err := book.Open(dir, book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	counts, err := b.Counts()
	if err != nil {
		t.Fatal(err)
	}
	return counts.Events
}
