package book_test

import (
	"bytes"
	"encoding/json"
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// exported gives a closed book's events as export writes them.
func exported(t *testing.T, dir string) []byte {
	t.Helper()
	b, err := book.Open(dir, book.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	var out bytes.Buffer
	if err := b.Export(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func rebuilt(t *testing.T, from string) (string, book.Rebuilt) {
	t.Helper()
	return rebuiltAt(t, filepath.Join(t.TempDir(), "rebuilt"), from)
}

func rebuiltAt(t *testing.T, into, from string) (string, book.Rebuilt) {
	t.Helper()
	report, err := book.Rebuild(into, from, "the test")
	if err != nil {
		t.Fatal(err)
	}
	booktest.Check(t, into)
	return into, report
}

func TestRebuildOfAWholeBook(t *testing.T) {
	dir := booktest.Make(t)
	drive(t, dir, 21, 160)
	want := exported(t, dir)
	for _, lost := range []string{"", "journal.jsonl", "book.db"} {
		f := filesOf(t, dir)
		from := f.write(t)
		if lost != "" {
			if err := os.Remove(filepath.Join(from, lost)); err != nil {
				t.Fatal(err)
			}
		}
		into, report := rebuilt(t, from)
		if got := exported(t, into); !bytes.Equal(got, want) || len(report.Lost) > 0 {
			t.Errorf("without %q: %d bytes, want %d: %+v", lost, len(got), len(want), report)
		}
		if writerOf(t, into) == writerOf(t, dir) {
			t.Error("the rebuilt book writes as the old one")
		}
	}
}

// What is intact in either file comes back; what is in neither is named.
func TestRebuildNamesWhatIsLost(t *testing.T) {
	dir := booktest.Make(t)
	drive(t, dir, 22, 80)
	f := filesOf(t, dir)
	all := bytes.SplitAfter(f.journal, []byte("\n"))
	victim := len(all) / 2
	damaged := f.clone()
	copyOf := bytes.Index(damaged.journal, all[victim])
	damaged.journal[copyOf+60] ^= 1
	if _, report := rebuilt(t, damaged.write(t)); report.Events != uint64(len(all)-1) || report.BadLines != 1 || len(report.Lost) != 0 {
		t.Errorf("lost in the journal only: %+v", report)
	}
	middle := all[victim][200:260]
	for at := bytes.Index(damaged.db, middle); at >= 0; at = bytes.Index(damaged.db, middle) {
		damaged.db[at] ^= 1
	}
	into, report := rebuilt(t, damaged.write(t))
	if report.Events != uint64(len(all)-2) || len(report.Lost) != 1 {
		t.Errorf("lost in both: %+v", report)
	}
	if again, second := rebuilt(t, into); !bytes.Equal(exported(t, again), exported(t, into)) || len(second.Lost) != 1 {
		t.Errorf("rebuilt again: %+v", second)
	}
}

func TestRebuildWithoutAnythingIntact(t *testing.T) {
	into := filepath.Join(t.TempDir(), "rebuilt")
	if _, err := book.Rebuild(into, files{[]byte("junk\n"), []byte("junk")}.write(t), "the test"); err == nil {
		t.Error("a book came out of junk")
	}
	if _, err := os.Stat(into); !os.IsNotExist(err) {
		t.Error("something was left", err)
	}
}

// stateOf writes down every state of a book.
func stateOf(t *testing.T, dir string) string {
	t.Helper()
	b, err := book.Open(dir, book.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	var text bytes.Buffer
	err = b.Read(func(v inventory.View) error {
		var failed error
		for kind := inventory.KindRunner; kind <= inventory.KindPlayer; kind++ {
			v.Each(kind, func(n inventory.Number, state inventory.Entity) bool {
				line, err := json.Marshal(state)
				failed = errors.Join(failed, err)
				text.WriteString(n.Short() + string(line) + "\n")
				return true
			})
		}
		return failed
	})
	if err != nil || text.Len() == 0 {
		t.Fatal(text.Len(), err)
	}
	return text.String()
}

func TestBackupsTakenWhileWriting(t *testing.T) {
	b := booktest.New(t)
	path := filepath.Join(t.TempDir(), "terns.zip")
	var all sync.WaitGroup
	done := make(chan struct{})
	all.Go(func() {
		drawer := booktest.NewDrawer(4)
		for {
			select {
			case <-done:
				return
			default:
				drawer.Learn(booktest.Record(t, b, drawer.Action()...))
			}
		}
	})
	last := uint64(0)
	for range times(500) {
		events, err := b.Backup(path)
		if err != nil || events < last {
			t.Fatal(events, last, err)
		}
		last = events
	}
	close(done)
	all.Wait()
	if _, report := rebuilt(t, path); report.Events != last || last < 10 {
		t.Errorf("the last backup says %d, %d came back", last, report.Events)
	}
}

func TestBackupRestoresTheSame(t *testing.T) {
	t.Parallel()
	dir := booktest.Make(t)
	drive(t, dir, 23, 160)
	photo := filepath.Join(dir, "photos", "a.jpg")
	if err := errors.Join(os.Mkdir(filepath.Dir(photo), 0o700), os.WriteFile(photo, []byte("picture"), 0o600)); err != nil {
		t.Fatal(err)
	}
	b := booktest.Open(t, dir)
	path := filepath.Join(t.TempDir(), "terns.zip")
	if _, err := b.Backup(path); err != nil {
		t.Fatal(err)
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	into, _ := rebuilt(t, path)
	if !bytes.Equal(exported(t, into), exported(t, dir)) || stateOf(t, into) != stateOf(t, dir) {
		t.Error("the restored book is another one")
	}
	if picture, err := os.ReadFile(filepath.Join(into, "photos", "a.jpg")); err != nil || string(picture) != "picture" {
		t.Errorf("%q, %v", picture, err)
	}
	checkBrokenBackups(t, path)
}

// checkBrokenBackups tells whether a backup that was cut or changed is refused.
func checkBrokenBackups(t *testing.T, path string) {
	t.Helper()
	whole, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	refused := 0
	for range times(1000) {
		broken := bytes.Clone(whole)
		if rand.IntN(2) == 0 {
			broken = broken[:rand.IntN(len(broken))]
		} else {
			broken[rand.IntN(len(broken))] ^= 1 << rand.IntN(8)
		}
		file := filepath.Join(t.TempDir(), "broken.zip")
		if err := os.WriteFile(file, broken, 0o600); err != nil {
			t.Fatal(err)
		}
		into := filepath.Join(t.TempDir(), "into")
		if _, err := book.Rebuild(into, file, "the test"); err != nil {
			refused++
			continue
		}
		if !bytes.Equal(exported(t, into), exportedFrom(t, path)) {
			t.Error("a broken backup was taken for a whole one")
		}
	}
	if refused < times(1000)/2 {
		t.Errorf("only %d of %d broken backups were refused", refused, times(1000))
	}
}

func exportedFrom(t *testing.T, backup string) []byte {
	t.Helper()
	into, _ := rebuilt(t, backup)
	return exported(t, into)
}
