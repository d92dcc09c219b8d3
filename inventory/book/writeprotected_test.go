package book_test

import (
	"bytes"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"testing"

	"golang.org/x/sys/unix"

	"steeltally/inventory/book"
)

// asPlainUser runs something as somebody who may write only where everybody may: root
// may write anywhere. The thread that runs it is not used again.
func asPlainUser(t *testing.T, run func()) {
	t.Helper()
	done := make(chan error)
	go func() {
		runtime.LockOSThread()
		var err error
		if os.Geteuid() == 0 {
			const nobody = 65534
			_, err = unix.SetfsuidRetUid(nobody)
		}
		if err == nil {
			run()
		}
		done <- err
	}()
	if err := <-done; err != nil {
		t.Fatal(err)
	}
}

// writeProtected lets nobody write a book's folder and files.
func writeProtected(t *testing.T, dir string) {
	t.Helper()
	err := errors.Join(os.Chmod(filepath.Dir(dir), 0o755), os.Chmod(filepath.Dir(filepath.Dir(dir)), 0o755))
	for name := range filesIn(t, dir) {
		err = errors.Join(err, os.Chmod(filepath.Join(dir, name), 0o444))
	}
	if err := errors.Join(err, os.Chmod(dir, 0o555)); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := os.Chmod(dir, 0o755); err != nil { // so that it can be removed
			t.Error(err)
		}
	})
}

// filesIn gives all files of a folder.
func filesIn(t *testing.T, dir string) map[string]string {
	t.Helper()
	found := map[string]string{}
	entries, err := os.ReadDir(dir)
	for _, entry := range entries {
		data, failed := os.ReadFile(filepath.Join(dir, entry.Name()))
		err = errors.Join(err, failed)
		found[entry.Name()] = string(data)
	}
	if err != nil {
		t.Fatal(err)
	}
	return found
}

// A book that nobody can write is read, verified, backed up, rebuilt and merged, also
// where it has to be brought up first: then what is read is what it would come to.
func TestWriteProtectedBooksAreRead(t *testing.T) {
	before, after := aBook(t, 61)
	behind := files{after.journal, before.db}
	torn := after.clone()
	torn.journal = append(torn.journal, `{"writer":"00`...)
	noLock := func(dir string) error { return os.RemoveAll(filepath.Join(dir, "lock")) }
	for what, prepare := range map[string]func() (string, error){
		"up to date":                func() (string, error) { return after.write(t), nil },
		"without a lock":            func() (string, error) { dir := after.write(t); return dir, noLock(dir) },
		"book.db behind":            func() (string, error) { return behind.write(t), nil },
		"an action was cut off":     func() (string, error) { return torn.write(t), nil },
		"folded by another version": func() (string, error) { dir := after.write(t); return dir, book.Age(dir) },
	} {
		dir, err := prepare()
		if err != nil {
			t.Fatal(what, err)
		}
		want := exported(t, after.write(t))
		state := stateOf(t, after.write(t))
		writeProtected(t, dir)
		was := filesIn(t, dir)
		elsewhere := t.TempDir()
		t.Setenv("TMPDIR", elsewhere)
		for _, path := range []string{elsewhere, filepath.Dir(elsewhere)} {
			if err := os.Chmod(path, 0o777); err != nil {
				t.Fatal(err)
			}
		}
		asPlainUser(t, func() { readWriteProtected(t, what, dir, elsewhere, want, state) })
		if is := filesIn(t, dir); len(is) != len(was) || is["journal.jsonl"] != was["journal.jsonl"] || is["book.db"] != was["book.db"] {
			t.Errorf("%s: something was written", what)
		}
	}
}

func readWriteProtected(t *testing.T, what, dir, elsewhere string, want []byte, state string) {
	if _, err := book.Open(dir, book.Options{}); !errors.Is(err, fs.ErrPermission) {
		t.Errorf("%s: it can be written: %v", what, err)
		return
	}
	if !bytes.Equal(exported(t, dir), want) || stateOf(t, dir) != state {
		t.Errorf("%s: what is read differs", what)
	}
	if report, err := book.VerifyHere(dir, "the test"); err != nil || !report.OK {
		t.Errorf("%s: %v %v", what, err, report.Problems)
	}
	if into, _ := rebuiltAt(t, filepath.Join(elsewhere, "rebuilt"), dir); !bytes.Equal(exported(t, into), want) {
		t.Errorf("%s: the rebuilt book is another one", what)
	}
	b, err := book.Open(dir, book.Options{ReadOnly: true})
	if err != nil {
		t.Error(what, err)
		return
	}
	defer b.Close()
	if _, err := b.Backup(filepath.Join(elsewhere, "terns.zip")); err != nil {
		t.Error(what, err)
	}
	into, _ := rebuiltAt(t, filepath.Join(elsewhere, "restored"), filepath.Join(elsewhere, "terns.zip"))
	if !bytes.Equal(exported(t, into), want) {
		t.Errorf("%s: the backup is another book", what)
	}
	other, _ := rebuiltAt(t, filepath.Join(elsewhere, "merged"), filepath.Join(elsewhere, "terns.zip"))
	mergeFrom(t, other, dir)
	left, err := os.ReadDir(elsewhere)
	if err != nil || len(left) != 4 {
		t.Errorf("%s: something was left: %v %v", what, left, err)
	}
}

func mergeFrom(t *testing.T, into, from string) {
	b, err := book.Open(into, book.Options{})
	if err != nil {
		t.Error(err)
		return
	}
	merged, err := b.Merge(book.Other{From: from, Program: "the test"})
	if err = errors.Join(err, b.Close()); err != nil || merged.Known == 0 || merged.SetAside > 0 {
		t.Error(merged, err)
	}
}
