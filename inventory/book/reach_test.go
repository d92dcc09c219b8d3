package book_test

import (
	"bytes"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// machine is a folder that keeps what belongs to one machine.
type machine string

func (m machine) open(t *testing.T, dir string) *book.Book {
	t.Helper()
	b, err := book.Open(dir, book.Options{Marks: string(m)})
	if err != nil {
		t.Fatal(err)
	}
	return b
}

// stockIn lets a book go on by a runner of a number, and gives who wrote it.
func (m machine) stockIn(t *testing.T, dir string, running int) inventory.Key {
	t.Helper()
	b := m.open(t, dir)
	n, err := inventory.NewNumber(inventory.KindRunner, 1, running)
	if err != nil {
		t.Fatal(err)
	}
	events := booktest.Record(t, b, inventory.Draft{Happened: inventory.At(booktest.Noted()), Body: &inventory.StockedIn{Pieces: []inventory.Number{n}, Model: "Skua R", Size: 280}})
	closed(t, b)
	return events[0].Key
}

func closed(t *testing.T, b *book.Book) {
	t.Helper()
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
}

func (m machine) setback(t *testing.T, dir string) (*book.Setback, []book.Stretch) {
	t.Helper()
	b := m.open(t, dir)
	defer closed(t, b)
	back, open, err := b.Setback()
	if err != nil {
		t.Fatal(err)
	}
	return back, open
}

// A folder whose files were put back to older ones, in place, is found by this machine:
// another writer goes on, so that what is known elsewhere comes back by a merge.
func TestFolderPutBackIsFound(t *testing.T) {
	here := machine(filepath.Join(t.TempDir(), "marks"))
	dir := booktest.Make(t)
	first := here.stockIn(t, dir, 1)
	older := filesOf(t, dir)
	for running := 2; running <= 4; running++ {
		here.stockIn(t, dir, running)
	}
	elsewhere := filesOf(t, dir).write(t)
	if back, _ := here.setback(t, dir); back != nil {
		t.Fatalf("nothing was put back, and %+v is said", back)
	}
	older.restore(t, dir)
	back, open := here.setback(t, dir)
	ref := inventory.GivenRef(inventory.KindRunner, 1)
	if back == nil || len(open) != 1 || back.Writer != first.Writer || back.From != first.Sequence+1 || back.Until != first.Sequence+3 || back.Numbers[ref] != 4 {
		t.Fatalf("put back: %+v, %v", back, open)
	}
	fresh := here.stockIn(t, dir, 5)
	if fresh.Writer == first.Writer || fresh.Sequence != 1 {
		t.Errorf("after it was put back %v was written", fresh)
	}
	if sum := merged(t, dir, elsewhere); sum.Added != 3 || sum.SetAside != 0 {
		t.Errorf("what was lost comes back: %+v", sum)
	}
	if _, open := here.setback(t, dir); len(open) > 0 {
		t.Error("what came back is still missed")
	}
	if again := here.stockIn(t, dir, 6); again.Writer != fresh.Writer {
		t.Errorf("the writer changed again, from %v to %v", fresh, again)
	}
	if sum := merged(t, elsewhere, dir); sum.Added != 2 || sum.SetAside != 0 {
		t.Errorf("what was written since comes elsewhere: %+v", sum)
	}
	booktest.Check(t, dir)
	older.restore(t, dir) // once more: the writer in it is known to be no more
	if back, _ := here.setback(t, dir); back == nil || back.Numbers[ref] != 6 {
		t.Errorf("put back again: %+v", back)
	}
}

// A folder that is put back again and again lacks what each of its writers wrote since, and
// says so of each until it is here.
func TestEachWriterOfAFolderPutBackTwiceIsNamed(t *testing.T) {
	here := machine(filepath.Join(t.TempDir(), "marks"))
	dir := booktest.Make(t)
	first := here.stockIn(t, dir, 1)
	older := filesOf(t, dir)
	here.stockIn(t, dir, 2)
	was := filesOf(t, dir).write(t)
	older.restore(t, dir)
	second := here.stockIn(t, dir, 3)
	between := filesOf(t, dir)
	here.stockIn(t, dir, 4)
	since := filesOf(t, dir).write(t)
	ofFirst := book.Stretch{Writer: first.Writer, From: first.Sequence + 1, Until: first.Sequence + 1}

	before := []book.Stretch{ofFirst, {Writer: second.Writer, From: 1, Until: 2}}
	for _, c := range []struct {
		what  string
		older files
		want  []book.Stretch
	}{
		{"to before both", older, before},
		{"to between", between, []book.Stretch{{Writer: second.Writer, From: 2, Until: 2}, ofFirst}},
		{"to before both once more", older, before},
	} {
		what := c.what
		c.older.restore(t, dir)
		if back := book.PutBack(dir, book.Options{Marks: string(here)}); !slices.Equal(back.All(), c.want) {
			t.Errorf("%s, before anything is written: %+v, want %+v", what, back.All(), c.want)
		}
		back, open := here.setback(t, dir)
		if !slices.Equal(open, c.want) || back.Numbers[inventory.GivenRef(inventory.KindRunner, 1)] != 4 {
			t.Errorf("%s: %+v, want %+v: %+v", what, open, c.want, back)
		}
		merged(t, dir, was)
		if _, open := here.setback(t, dir); len(open) != 1 || open[0].Writer != second.Writer {
			t.Errorf("%s, with what the first wrote: %+v", what, open)
		}
		merged(t, dir, since)
		if _, open := here.setback(t, dir); len(open) > 0 {
			t.Errorf("%s, with all: %+v", what, open)
		}
	}
	booktest.Check(t, dir)
}

// Where this machine kept nothing, what another station knows tells it.
func TestFolderPutBackIsFoundByAMerge(t *testing.T) {
	nowhere := machine("")
	for name, later := range map[string]int{"nothing written since": 0, "written on since": 2} {
		dir := booktest.Make(t)
		first := nowhere.stockIn(t, dir, 1)
		older := filesOf(t, dir)
		nowhere.stockIn(t, dir, 2)
		elsewhere := filesOf(t, dir).write(t)
		older.restore(t, dir)
		for running := range later {
			nowhere.stockIn(t, dir, 10+running)
		}
		b := nowhere.open(t, dir)
		sum, err := b.Merge(book.Other{From: elsewhere, Program: "the test"})
		if err != nil || !sum.PutBack || sum.Added+sum.SetAside != 1 || (sum.SetAside > 0) != (later > 0) {
			t.Errorf("%s: %+v, %v", name, sum, err)
		}
		events := booktest.Record(t, b, booktest.Opening()...)
		if events[0].Writer == first.Writer || events[0].Sequence != 1 {
			t.Errorf("%s: %v was written", name, events[0].Key)
		}
		if sum, err := b.Merge(book.Other{From: elsewhere, Program: "the test"}); err != nil || sum.PutBack {
			t.Errorf("%s: merged again: %+v, %v", name, sum, err)
		}
		closed(t, b)
		booktest.Check(t, dir)
	}
}

// A copy beside its original, a new name, and a place where nothing can be kept are no
// older copies.
func TestWhatWasNotPutBack(t *testing.T) {
	here := machine(filepath.Join(t.TempDir(), "marks"))
	dir := booktest.Make(t)
	first := here.stockIn(t, dir, 1)
	copied := filesOf(t, dir).write(t)
	here.stockIn(t, dir, 2)
	if back, _ := here.setback(t, copied); back != nil {
		t.Errorf("a copy beside its original: %+v", back)
	}
	if err := os.Rename(dir, dir+"-renamed"); err != nil {
		t.Fatal(err)
	}
	if key := here.stockIn(t, dir+"-renamed", 3); key.Writer != first.Writer {
		t.Errorf("under a new name another writer writes: %v", key)
	}
	file := filepath.Join(t.TempDir(), "file")
	if err := os.WriteFile(file, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	b := machine(filepath.Join(file, "marks")).open(t, dir+"-renamed")
	if b.Unmarked() == nil {
		t.Error("it is not said that nothing can be kept")
	}
	if events := booktest.Record(t, b, booktest.Opening()...); events[0].Writer != first.Writer {
		t.Errorf("where nothing can be kept another writer writes: %v", events[0].Key)
	}
	closed(t, b)
	if back, _ := here.setback(t, dir+"-renamed"); back != nil {
		t.Errorf("a book that went on while nothing was kept: %+v", back)
	}
}

// A file system keeps its id where the system gives its device another number; a mark by
// the device, as books had it, is taken and written anew.
func TestFileSystemCountsAndNotTheDevice(t *testing.T) {
	if err := book.CheckMarks(); err != nil {
		t.Error(err)
	}
	dir := booktest.Make(t)
	writer := writerOf(t, dir)
	if err := book.MarkByDevice(dir); err != nil {
		t.Fatal(err)
	}
	before := filesOf(t, dir).db
	if now := writerOf(t, dir); now != writer {
		t.Errorf("a book with a mark of old was taken for a copy: %s was %s", now, writer)
	}
	if bytes.Equal(before, filesOf(t, dir).db) {
		t.Error("the mark of old was not written anew")
	}
}
