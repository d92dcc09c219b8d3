package book_test

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"go.etcd.io/bbolt"

	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

func TestNoBookIsEverMadeByOpening(t *testing.T) {
	folder := t.TempDir()
	file := filepath.Join(folder, "file")
	if err := os.WriteFile(file, []byte("x"), 0o600); err != nil {
		t.Fatal(err)
	}
	empty := filepath.Join(folder, "empty")
	if err := os.Mkdir(empty, 0o700); err != nil {
		t.Fatal(err)
	}
	for _, dir := range []string{filepath.Join(folder, "absent"), file, empty} {
		var absent *book.AbsentError
		if _, err := book.Open(dir, book.Options{}); !errors.As(err, &absent) {
			t.Errorf("%s: %v", dir, err)
		}
		if _, err := book.VerifyHere(dir, "the test"); !errors.As(err, &absent) {
			t.Errorf("%s: %v", dir, err)
		}
	}
	if inside, err := os.ReadDir(empty); err != nil || len(inside) != 0 {
		t.Errorf("opening an empty folder left %v in it (%v)", inside, err)
	}
}

func TestLostAndEmptyFilesAreDamage(t *testing.T) {
	_, whole := aBook(t, 1)
	for _, f := range []files{{nil, whole.db}, {whole.journal, nil}, {nil, nil}} {
		checkDamaged(t, f, "an empty file")
	}
	for _, name := range []string{"journal.jsonl", "book.db"} {
		dir := whole.write(t)
		if err := os.Remove(filepath.Join(dir, name)); err != nil {
			t.Fatal(err)
		}
		var damage *book.DamageError
		if _, err := book.Open(dir, book.Options{}); !errors.As(err, &damage) || damage.File != name {
			t.Errorf("without %s: %v", name, err)
		}
		if _, err := os.Stat(filepath.Join(dir, name)); !os.IsNotExist(err) {
			t.Errorf("%s was made anew", name)
		}
		if report, err := book.VerifyHere(dir, "the test"); err != nil || report.OK {
			t.Errorf("without %s: %+v, %v", name, report, err)
		}
	}
}

func TestFilesOfOthersAreDamage(t *testing.T) {
	_, whole := aBook(t, 1)
	path := filepath.Join(t.TempDir(), "foreign")
	db, err := bbolt.Open(path, 0o600, nil)
	if err != nil {
		t.Fatal(err)
	}
	err = db.Update(func(tx *bbolt.Tx) error {
		b, err := tx.CreateBucket([]byte("accounts"))
		return errors.Join(err, b.Put([]byte("a"), []byte("b")))
	})
	if err := errors.Join(err, db.Close()); err != nil {
		t.Fatal(err)
	}
	foreign, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	_, other := aBook(t, 9)
	checkDamaged(t, files{whole.journal, foreign}, "another program's bbolt file")
	checkDamaged(t, files{whole.journal, make([]byte, 1<<16)}, "zeros")
	checkDamaged(t, files{whole.journal, []byte("some text\n")}, "a text as book.db")
	checkDamaged(t, files{[]byte("some text\n"), whole.db}, "a text as journal")
	checkDamaged(t, files{other.journal, whole.db}, "another book's journal")
}

func TestMovedWhileOpen(t *testing.T) {
	dir := booktest.Make(t)
	b, err := book.Open(dir, book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	if err := os.Rename(dir, dir+"-moved"); err != nil {
		t.Fatal(err)
	}
	var moved *book.MovedError
	if _, err := b.Record(booktest.Stamp(), nil); !errors.As(err, &moved) {
		t.Errorf("recorded in a book that was moved: %v", err)
	}
	if err := os.Rename(dir+"-moved", dir); err != nil {
		t.Fatal(err)
	}
	booktest.Record(t, b, booktest.Opening()...)
}

func TestCopyGetsItsOwnWriter(t *testing.T) {
	dir := booktest.Make(t)
	writer := writerOf(t, dir)
	if again := writerOf(t, dir); again != writer {
		t.Errorf("the writer changed from %s to %s by opening", writer, again)
	}
	if err := os.Rename(dir, dir+"-renamed"); err != nil {
		t.Fatal(err)
	}
	dir += "-renamed"
	if renamed := writerOf(t, dir); renamed != writer {
		t.Errorf("the writer changed from %s to %s by renaming", writer, renamed)
	}
	copied := filesOf(t, dir).write(t)
	b := booktest.Open(t, copied)
	events := booktest.Record(t, b, booktest.Opening()...)
	if string(events[0].Writer) == writer || events[0].Sequence != 1 || events[0].Logical != 2 {
		t.Errorf("the copy of %s wrote %v at %d", writer, events[0].Key, events[0].Logical)
	}
	if entry, err := b.FindTyped("1"); err == nil {
		t.Errorf("two writers have an event 1, and %v was found", entry.Key)
	}
}

func writerOf(t *testing.T, dir string) string {
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
	return string(counts.Writer)
}

func TestCreateRefusesWhatIsThere(t *testing.T) {
	dir := booktest.Make(t)
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, there := range []string{dir, file, t.TempDir() + "/.."} {
		var occupied *book.OccupiedError
		if err := book.Create(there, booktest.Stamp(), booktest.Opening()); !errors.As(err, &occupied) {
			t.Errorf("%s: %v", there, err)
		}
	}
	booktest.Check(t, dir)
	parent := t.TempDir()
	if err := book.Create(filepath.Join(parent, "a", "b"), booktest.Stamp(), booktest.Opening()); err == nil {
		t.Error("a book in a folder that is not there")
	}
	if err := book.Create(filepath.Join(parent, "c"), booktest.Stamp(), nil); err == nil {
		t.Error("a book without a beginning")
	}
	if left, err := os.ReadDir(parent); err != nil || len(left) != 0 {
		t.Errorf("left behind: %v (%v)", left, err)
	}
	empty := filepath.Join(parent, "empty")
	if err := errors.Join(os.Mkdir(empty, 0o755), book.Create(empty, booktest.Stamp(), booktest.Opening())); err != nil {
		t.Error(err)
	}
	booktest.Check(t, empty)
}

func TestOnlyTheOwnerCanLook(t *testing.T) {
	dir := booktest.Make(t)
	booktest.Check(t, dir) // makes the locks
	folder, err := os.Stat(dir)
	if err != nil || folder.Mode().Perm() != 0o700 {
		t.Error(folder.Mode(), err)
	}
	inside, err := os.ReadDir(dir)
	if err != nil || len(inside) != 4 {
		t.Error(inside, err)
	}
	for _, entry := range inside {
		if info, err := entry.Info(); err != nil || info.Mode().Perm() != 0o600 {
			t.Error(entry.Name(), info.Mode(), err)
		}
	}
}
