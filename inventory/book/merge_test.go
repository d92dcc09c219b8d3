package book_test

import (
	"bytes"
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// went lets a book go on alone for some actions.
func went(t *testing.T, dir string, drawer *booktest.Drawer, actions int) {
	t.Helper()
	b, err := book.Open(dir, book.Unsynced())
	if err != nil {
		t.Fatal(err)
	}
	for range actions {
		drawer.Learn(booktest.Record(t, b, drawer.Action()...))
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
}

// merged merges other books into one and gives what came of it.
func merged(t *testing.T, into string, others ...string) (sum book.Merged) {
	t.Helper()
	b, err := book.Open(into, book.Unsynced())
	if err != nil {
		t.Fatal(err)
	}
	for _, other := range others {
		one, err := b.Merge(book.Other{From: other, Program: "the test"})
		if err != nil {
			t.Fatal(err)
		}
		sum.Added, sum.Known, sum.SetAside = sum.Added+one.Added, sum.Known+one.Known, sum.SetAside+one.SetAside
	}
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	return sum
}

// Copies of a book go on separately, are copied again, and are merged in any order.
func TestMergesComeToTheSame(t *testing.T) {
	t.Parallel()
	base := booktest.Make(t)
	drawer := booktest.NewDrawer(41)
	went(t, base, drawer, 12)
	ancestor := filesOf(t, base)
	for round := range times(10_000) {
		count := 2 + rand.IntN(2)
		dirs := make([]string, count)
		source := ancestor
		for i := range dirs {
			dirs[i] = source.write(t)
			went(t, dirs[i], booktest.NewDrawer(rand.Uint64()).Knowing(drawer.Known), rand.IntN(5))
			if rand.IntN(3) == 0 {
				source = filesOf(t, dirs[i]) // the next one is a copy of this one
			}
		}
		checkMerges(t, dirs, round%50 == 0)
		for _, dir := range dirs {
			_ = os.RemoveAll(dir)
		}
		if t.Failed() {
			t.Fatalf("round %d of %d books", round, count)
		}
	}
}

// checkMerges merges all books into each of them, each time in another order.
func checkMerges(t *testing.T, dirs []string, thorough bool) {
	t.Helper()
	var lines []byte
	var state string
	for i := range dirs {
		into := filesOf(t, dirs[i]).write(t)
		defer os.RemoveAll(into)
		order := rand.Perm(len(dirs))
		if rand.IntN(4) == 0 {
			order = append(order, order...) // twice changes nothing
		}
		var others []string
		for _, k := range order {
			others = append(others, dirs[k])
		}
		if sum := merged(t, into, others...); sum.SetAside > 0 {
			t.Errorf("%d events were set aside", sum.SetAside)
		}
		if i == 0 {
			lines, state = exported(t, into), stateOf(t, into)
		}
		if !bytes.Equal(exported(t, into), lines) || stateOf(t, into) != state {
			t.Error("two orders of merging came to different books")
		}
		if thorough {
			booktest.Check(t, into)
		}
	}
}

func TestMergeOfMany(t *testing.T) {
	base := booktest.Make(t)
	went(t, base, booktest.NewDrawer(42), 10)
	other := filesOf(t, base).write(t)
	for _, dir := range []string{base, other} {
		b, err := book.Open(dir, book.Options{})
		if err != nil {
			t.Fatal(err)
		}
		err = b.Bulk(func(record book.Recorder) error { return booktest.NewSeasons().Play(record, 5000) })
		if err := errors.Join(err, b.Close()); err != nil {
			t.Fatal(err)
		}
	}
	into := filesOf(t, base).write(t)
	if sum := merged(t, into, other); sum.Added < 5000 {
		t.Errorf("%+v", sum)
	}
	booktest.Check(t, into)
	back := filesOf(t, other).write(t)
	merged(t, back, base)
	if !bytes.Equal(exported(t, back), exported(t, into)) || stateOf(t, back) != stateOf(t, into) {
		t.Error("two orders of merging came to different books")
	}
}

func TestMergeFromFiles(t *testing.T) {
	base := booktest.Make(t)
	went(t, base, booktest.NewDrawer(43), 10)
	other := filesOf(t, base).write(t)
	went(t, other, booktest.NewDrawer(44), 10)
	b := booktest.Open(t, other)
	backup := filepath.Join(t.TempDir(), "other.zip")
	if _, err := b.Backup(backup); err != nil {
		t.Fatal(err)
	}
	text := filepath.Join(t.TempDir(), "other.jsonl")
	if err := os.WriteFile(text, exported2(t, b), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, from := range []string{backup, text} {
		into := filesOf(t, base).write(t)
		merged(t, into, from)
		booktest.Check(t, into)
		if !bytes.Equal(exported(t, into), exported2(t, b)) {
			t.Errorf("%s: another book came of it", filepath.Ext(from))
		}
	}
	checkBrokenOthers(t, base, text)
}

func exported2(t *testing.T, b *book.Book) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := b.Export(&out); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// checkBrokenOthers tells whether a half-copied or changed file is refused whole.
func checkBrokenOthers(t *testing.T, base, text string) {
	t.Helper()
	whole, err := os.ReadFile(text)
	if err != nil {
		t.Fatal(err)
	}
	lines := bytes.SplitAfter(whole, []byte("\n"))
	middle := len(lines) / 2
	broken := map[string][]byte{
		"cut in a line":    whole[:len(whole)/2],
		"a byte changed":   append(append([]byte{}, whole[:900]...), append([]byte{whole[900] ^ 1}, whole[901:]...)...),
		"a line missing":   bytes.Join(append(append([][]byte{}, lines[:middle]...), lines[middle+1:]...), nil),
		"no line ends":     bytes.ReplaceAll(whole, []byte("\n"), nil),
		"something else":   []byte("player,sweater\nTove,7\n"),
		"nothing":          nil,
		"a book's own end": whole[:len(whole)-1],
	}
	before := exported(t, base)
	for what, data := range broken {
		path := filepath.Join(t.TempDir(), "broken.jsonl")
		if err := os.WriteFile(path, data, 0o600); err != nil {
			t.Fatal(err)
		}
		b := booktest.Open(t, base)
		var refused *book.MergeError
		if _, err := b.Merge(book.Other{From: path, Program: "the test"}); !errors.As(err, &refused) {
			t.Errorf("%s: %v", what, err)
		}
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(exported(t, base), before) {
		t.Error("a refused file changed the book")
	}
}

// Another club's book is refused whole; one of the same name, or one with an event in
// common, is not.
func TestAnotherClubsBookIsRefused(t *testing.T) {
	named := func(name string) inventory.Draft {
		return inventory.Draft{Body: &inventory.ClubNoted{Name: name, Zone: "UTC", Station: 2}}
	}
	create := func(name string) string {
		dir := filepath.Join(t.TempDir(), "book")
		if err := book.Create(dir, booktest.Stamp(), []inventory.Draft{named(name)}); err != nil {
			t.Fatal(err)
		}
		return dir
	}
	ours := booktest.Open(t, create("Skarn Harbour Terns"))
	theirs, same := create("Rime Point Auks"), create("skarn harbour TERNS")
	before := exported2(t, ours)
	var refused *book.OtherClubError
	if _, err := ours.Merge(book.Other{From: theirs, Program: "the test"}); !errors.As(err, &refused) {
		t.Errorf("another club's book: %v", err)
	} else if refused.Theirs != "Rime Point Auks" || refused.Ours != "Skarn Harbour Terns" {
		t.Errorf("%+v", refused)
	}
	if !bytes.Equal(exported2(t, ours), before) {
		t.Error("a refused book was taken in")
	}
	if sum, err := ours.Merge(book.Other{From: same, Program: "the test"}); err != nil || sum.Added != 1 {
		t.Errorf("the same club's book: %+v, %v", sum, err)
	}
	renamed := booktest.Open(t, same)
	booktest.Record(t, renamed, named("Harbour Terns"))
	if _, err := renamed.Merge(book.Other{From: create("Skarn  Harbour Terns"), Program: "the test"}); err != nil {
		t.Errorf("a book of the name that this club had: %v", err)
	}
	if err := renamed.Close(); err != nil {
		t.Fatal(err)
	}
	if sum, err := ours.Merge(book.Other{From: theirs, Program: "the test", AnyClub: true}); err != nil || sum.Added != 1 {
		t.Errorf("another club's book that is wanted: %+v, %v", sum, err)
	}
	auks := booktest.Open(t, theirs)
	booktest.Record(t, auks, named("Auks"))
	if err := auks.Close(); err != nil {
		t.Fatal(err)
	}
	if sum, err := ours.Merge(book.Other{From: theirs, Program: "the test"}); err != nil || sum.Added != 1 || sum.Known != 1 {
		t.Errorf("a known book of a new name: %+v, %v", sum, err)
	}
}

// Two books of one name that were begun apart are no copies of each other: where both gave a
// number, two pieces would become one.
func TestABookBegunApartIsRefused(t *testing.T) {
	create := func(piece string) string {
		dir := filepath.Join(t.TempDir(), "book")
		n, err := inventory.ParseNumber(piece)
		if err != nil {
			t.Fatal(err)
		}
		drafts := []inventory.Draft{
			{Body: &inventory.ClubNoted{Name: "Skarn Harbour Terns", Zone: "UTC", Station: 1}},
			{Body: &inventory.StockedIn{Pieces: []inventory.Number{n}, Model: "Skua R", Size: 280}},
		}
		if err := book.Create(dir, booktest.Stamp(), drafts); err != nil {
			t.Fatal(err)
		}
		return dir
	}
	ours := booktest.Open(t, create("R1-1-77"))
	apart, other := create("R1-1-77"), create("R1-2-74")
	before := exported2(t, ours)
	var refused *book.BegunApartError
	if _, err := ours.Merge(book.Other{From: apart, Program: "the test"}); !errors.As(err, &refused) || refused.Both.Short() != "R1-1-77" {
		t.Errorf("a book that gave the same number: %v", err)
	}
	if !bytes.Equal(exported2(t, ours), before) {
		t.Error("a refused book was taken in")
	}
	if sum, err := ours.Merge(book.Other{From: other, Program: "the test"}); err != nil || sum.Added != 2 {
		t.Errorf("a book that gave another number: %+v, %v", sum, err)
	}
	if sum, err := ours.Merge(book.Other{From: apart, Program: "the test", AnyClub: true}); err != nil || sum.Added != 2 {
		t.Errorf("a book that is wanted all the same: %+v, %v", sum, err)
	}
}

// A clone keeps its writer, so both go on under the same keys.
func TestDivergedWriterIsSetAside(t *testing.T) {
	dir := booktest.Make(t)
	before := filesOf(t, dir)
	b := booktest.Open(t, dir)
	drafts := booktest.Opening()
	drafts[0].Body = &inventory.ClubNoted{Name: "Terns of the north pier", Zone: "UTC", Station: 1}
	booktest.Record(t, b, drafts...)
	booktest.Record(t, b, drafts...)
	if err := b.Close(); err != nil {
		t.Fatal(err)
	}
	theirs := filesOf(t, dir).write(t)
	for name, data := range map[string][]byte{"journal.jsonl": before.journal, "book.db": before.db} {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	b = booktest.Open(t, dir)
	booktest.Record(t, b, booktest.Opening()...)
	ours := exported2(t, b)
	for range 2 {
		sum, err := b.Merge(book.Other{From: theirs, Program: "the test"})
		if err != nil || sum.SetAside != 2 || sum.Added != 0 || sum.Known != 1 {
			t.Errorf("%+v, %v", sum, err)
		}
	}
	aside, err := b.SetAside()
	if err != nil || len(aside) != 2 || !strings.Contains(string(aside[1].Event), "north pier") {
		t.Errorf("%d set aside, %v", len(aside), err)
	}
	if !bytes.Equal(exported2(t, b), ours) {
		t.Error("what was set aside changed the book")
	}
	if _, err := b.Merge(book.Other{From: dir, Program: "the test"}); err == nil {
		t.Error("a book was merged into itself")
	}
}
