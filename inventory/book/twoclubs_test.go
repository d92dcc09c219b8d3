package book_test

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// A folder with the journal of one club and the book.db of another gives no book.
func TestFilesOfTwoClubsAreNoBook(t *testing.T) {
	dir := booktest.Make(t)
	drive(t, dir, 71, 30)
	other := filepath.Join(t.TempDir(), "auks")
	auks := []inventory.Draft{{Happened: inventory.At(booktest.Noted()), Body: &inventory.ClubNoted{Name: "Rime Point Auks", Zone: "UTC", Station: 1}}}
	if err := book.Create(other, booktest.Stamp(), auks); err != nil {
		t.Fatal(err)
	}
	mixed := files{filesOf(t, other).journal, filesOf(t, dir).db}.write(t)
	into := filepath.Join(t.TempDir(), "rebuilt")
	var refused *book.TwoClubsError
	if _, err := book.Rebuild(into, mixed, "the test"); !errors.As(err, &refused) || refused.Journal != "Rime Point Auks" || refused.DB != "Skarn Harbour Terns" {
		t.Errorf("two clubs' files: %v", err)
	}
	if _, err := os.Stat(into); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("something was made of two clubs' files: %v", err)
	}
	same := filepath.Join(t.TempDir(), "same")
	if err := book.Create(same, booktest.Stamp(), booktest.Opening()); err != nil {
		t.Fatal(err)
	}
	if _, err := book.Rebuild(into, files{filesOf(t, same).journal, filesOf(t, dir).db}.write(t), "the test"); err != nil {
		t.Errorf("two files of one club: %v", err)
	}
}

// Two copies of a writer that both went on: what contradicts is set aside, each line
// once, however many there are.
func TestManyConflictsAreSetAside(t *testing.T) {
	dir := booktest.Make(t)
	before := filesOf(t, dir)
	count := times(100_000)
	play := func(dir string, skip int) {
		b, err := book.Open(dir, book.Unsynced())
		if err != nil {
			t.Fatal(err)
		}
		err = b.Bulk(func(record book.Recorder) error {
			seasons := booktest.NewSeasons()
			for range skip {
				_, err := record(booktest.Stamp(), booktest.Decide)
				if err != nil {
					return err
				}
			}
			return seasons.Play(record, count)
		})
		if err := errors.Join(err, b.Close()); err != nil {
			t.Fatal(err)
		}
	}
	play(dir, 0)
	theirs := filesOf(t, dir).write(t)
	before.restore(t, dir)
	play(dir, 1)
	b := booktest.Open(t, dir)
	for range 2 {
		sum, err := b.Merge(book.Other{From: theirs, Program: "the test"})
		if err != nil || sum.SetAside < count || sum.Added > 0 {
			t.Errorf("%+v, %v", sum, err)
		}
		aside, err := b.SetAside()
		if err != nil || len(aside) != sum.SetAside {
			t.Errorf("%d set aside of %d, %v", len(aside), sum.SetAside, err)
		}
	}
}

// restore writes the files of a book back in place, as a synchronising folder does.
func (f files) restore(t *testing.T, dir string) {
	t.Helper()
	for name, data := range map[string][]byte{"journal.jsonl": f.journal, "book.db": f.db} {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
}
