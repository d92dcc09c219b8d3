package book_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// files are the two files of a closed book.
type files struct{ journal, db []byte }

func filesOf(t *testing.T, dir string) files {
	t.Helper()
	journal, err := os.ReadFile(filepath.Join(dir, "journal.jsonl"))
	if err != nil {
		t.Fatal(err)
	}
	db, err := os.ReadFile(filepath.Join(dir, "book.db"))
	if err != nil {
		t.Fatal(err)
	}
	return files{journal, db}
}

// write puts the files into a new folder, as copying a book does.
func (f files) write(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	for name, data := range map[string][]byte{"journal.jsonl": f.journal, "book.db": f.db} {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func (f files) clone() files { return files{bytes.Clone(f.journal), bytes.Clone(f.db)} }

// aBook makes a book of some random actions and gives its files, and those that it
// has after one more action of three events.
func aBook(t *testing.T, seed uint64) (before, after files) {
	t.Helper()
	dir := booktest.Make(t)
	drive(t, dir, seed, 64)
	before = filesOf(t, dir)
	b := booktest.Open(t, dir)
	drafts := append(booktest.Opening(), booktest.Opening()...)
	booktest.Record(t, b, append(drafts, booktest.Opening()...)...)
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	return before, filesOf(t, dir)
}

// opens tells whether a book opens for writing, and how many events it has then.
func opens(t *testing.T, dir string) (uint64, error) {
	t.Helper()
	b, err := book.Open(dir, book.Options{})
	if err != nil {
		return 0, err
	}
	defer b.Close()
	counts, err := b.Counts()
	return counts.Events, err
}

func lines(journal []byte) int { return bytes.Count(journal, []byte("\n")) }
