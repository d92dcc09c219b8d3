package desk

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/deeds"
)

// aBook is a book with two runners in stock, R1-1-77 and R1-2-74.
func aBook(t *testing.T) Options {
	t.Helper()
	dir := t.TempDir()
	now := time.Date(2025, 11, 26, 9, 0, 0, 0, time.UTC)
	o := Options{Book: filepath.Join(dir, "book"), Machine: filepath.Join(dir, "machine", "machine.toml"), Now: func() time.Time { return now }}
	if err := Init(o, deeds.FoundClub{Name: "Skarn Harbour Terns", Zone: "UTC", Station: 1}); err != nil {
		t.Fatal(err)
	}
	d, err := Open(o)
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	if _, _, err := d.StockIn(deeds.StockIn{Piece: inventory.KindRunner, Model: "Skua R", Size: 280, Count: 2}); err != nil {
		t.Fatal(err)
	}
	return o
}

func runnersOf(t *testing.T, texts ...string) []inventory.Number {
	t.Helper()
	var numbers []inventory.Number
	for _, text := range texts {
		n, err := inventory.ParseNumber(text)
		if err != nil {
			t.Fatal(err)
		}
		numbers = append(numbers, n)
	}
	return numbers
}

// Tags come out of a book that others read, too; that the print is not counted then is
// said, and is no failure.
func TestTagsComeOutWhileOthersRead(t *testing.T) {
	o := aBook(t)
	other, err := OpenToRead(o)
	if err != nil {
		t.Fatal(err)
	}
	d, err := OpenToRead(o)
	if err != nil {
		t.Fatal(err)
	}
	job := TagJob{Pieces: runnersOf(t, "R1-1-77", "R1-2-74"), Out: filepath.Join(filepath.Dir(o.Book), "tags.pdf")}
	printed, err := d.PrintTags(job)
	d.Close()
	if err != nil || printed.Tags != 2 {
		t.Fatalf("%+v, %v", printed, err)
	}
	notices := CountPrints(o, printed)
	if len(notices) != 1 || !strings.Contains(notices[0].Text, "the tags came out, but the book does not count them") {
		t.Errorf("while another reads: %+v", notices)
	}
	other.Close()
	if notices := CountPrints(o, printed); len(notices) != 0 {
		t.Errorf("alone: %+v", notices)
	}
	if times := timesPrinted(t, o, job.Pieces[0]); times != 1 {
		t.Errorf("counted %d times, want once", times)
	}
}

func timesPrinted(t *testing.T, o Options, n inventory.Number) int {
	t.Helper()
	d, err := OpenToRead(o)
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	h, err := d.History(n.String(), false)
	if err != nil {
		t.Fatal(err)
	}
	return h.State.(*inventory.Runner).PrintsOf("sleeve-strip", 0).Times
}

// Where a machine can keep no settings, tags come out all the same.
func TestTagsComeOutWithoutSettings(t *testing.T) {
	o := aBook(t)
	blocked := filepath.Join(t.TempDir(), "a file, not a folder")
	if err := os.WriteFile(blocked, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	for _, machine := range []string{"", filepath.Join(blocked, "machine.toml")} {
		o.Machine = machine
		d, err := OpenToRead(o)
		if err != nil {
			t.Fatal(err)
		}
		printed, err := d.PrintTags(TagJob{
			Pieces: runnersOf(t, "R1-1-77"), Sheet: "a4-4x34", Start: 7, Out: filepath.Join(filepath.Dir(o.Book), "tags.pdf"),
		})
		d.Close()
		if err != nil || printed.Tags != 1 {
			t.Errorf("%q: %+v, %v", machine, printed, err)
		}
		if last := len(printed.Notices) - 1; last < 0 || !strings.Contains(printed.Notices[last].Text, "could not be remembered") {
			t.Errorf("%q: %+v", machine, printed.Notices)
		}
	}
}

// Tags of one sheet lie together on it, in whatever order their pieces were named; what
// is asked of each tag stays in that order.
func TestTagsOfOneSheetLieTogether(t *testing.T) {
	o := aBook(t)
	d, err := Open(o)
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	bin, _, err := d.NoteContainer(deeds.NoteContainer{Container: inventory.KindBin, Name: "bin 3"})
	if err != nil {
		t.Fatal(err)
	}
	pieces := runnersOf(t, "R1-1-77", bin.Short(), "R1-2-74")
	work, err := d.tagWork(TagJob{Pieces: pieces})
	if err != nil {
		t.Fatal(err)
	}
	if err := work.layAll(d); err != nil {
		t.Fatal(err)
	}
	if len(work.groups) != 2 || len(work.groups[0].tags) != 2 || len(work.groups[1].tags) != 1 {
		t.Fatalf("%d groups", len(work.groups))
	}
	for i, page := range work.inOrder() {
		if page.Name != pieces[i].String() {
			t.Errorf("tag %d is %s, want %s", i, page.Name, pieces[i])
		}
	}
}
