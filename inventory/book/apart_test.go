package book_test

import (
	"bytes"
	"errors"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// crack is a crack in a runner.
func crack(t *testing.T, serial int) inventory.Draft {
	t.Helper()
	n, err := inventory.NewNumber(inventory.KindRunner, 1, serial)
	if err != nil {
		t.Fatal(err)
	}
	return inventory.Draft{Happened: inventory.At(booktest.Noted()), Body: &inventory.Damaged{Piece: n, Mode: "crack", Unsafe: true}}
}

func undo(keys ...inventory.Key) inventory.Draft {
	return inventory.Draft{Happened: inventory.At(booktest.Noted()), Body: &inventory.Correction{Words: "not so", Voids: keys}}
}

// cracksIn counts the cracks that a book holds, and those of them that nothing voids.
func cracksIn(t *testing.T, dir string) (all, stand int) {
	t.Helper()
	b, err := book.Open(dir, book.Options{ReadOnly: true})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	err = b.All(func(e inventory.Event, _ []byte) error {
		damage, ok := e.Body.(*inventory.Damaged)
		if !ok {
			return nil
		}
		all++
		entries, err := b.History(inventory.RefOf(damage.Piece), 0)
		for _, entry := range entries {
			if entry.Key == e.Key && entry.VoidedBy == nil {
				stand++
			}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return all, stand
}

// parted makes two books of one writer that went on apart: under the first key after what
// both know, one has a look that found a runner sound, the other a crack in it.
func parted(t *testing.T) (home, road string, key inventory.Key) {
	t.Helper()
	home = booktest.Make(t)
	older := filesOf(t, home)
	other := recordIn(t, home, crack(t, 1))[0].Key
	road = filesOf(t, home).write(t)
	older.restore(t, home)
	if key = recordIn(t, home, look(t, "sound"))[0].Key; other != key {
		t.Fatalf("%v is not %v", other, key)
	}
	return home, road, key
}

// quickly opens a book that needs not outlast the machine.
func quickly(t *testing.T, dir string) *book.Book {
	t.Helper()
	b, err := book.Open(dir, book.Unsynced())
	if err != nil {
		t.Fatal(err)
	}
	return b
}

func recordIn(t *testing.T, dir string, drafts ...inventory.Draft) []inventory.Event {
	t.Helper()
	b := quickly(t, dir)
	defer closed(t, b)
	return booktest.Record(t, b, drafts...)
}

// namings are the sorts of entries that are about another one.
func namings(t *testing.T) map[string]func(key inventory.Key) inventory.Body {
	t.Helper()
	player, err := inventory.NewNumber(inventory.KindPlayer, 1, 1)
	if err != nil {
		t.Fatal(err)
	}
	return map[string]func(key inventory.Key) inventory.Body{
		"undo":       func(key inventory.Key) inventory.Body { return &inventory.Correction{Voids: []inventory.Key{key}} },
		"both right": func(key inventory.Key) inventory.Body { return &inventory.Correction{Keeps: []inventory.Key{key}} },
		"clock set": func(key inventory.Key) inventory.Body {
			return &inventory.ClockSet{Of: key.Writer, Entries: []inventory.Run{{First: key.Sequence, Count: 1}}, By: 3600}
		},
		"clock right": func(key inventory.Key) inventory.Body { return &inventory.ClockRight{Doubts: []inventory.Key{key}} },
		"emergency closed": func(key inventory.Key) inventory.Body {
			return &inventory.EmergencyClosed{Emergency: key, Player: player}
		},
	}
}

// What one book says of its entry never meets the other one's under the same key: by
// undo, by finding both right, or by setting a clock right; nor where it is taken in.
func TestMergeKeepsApartWhatNamesAnotherEntry(t *testing.T) {
	for name, naming := range namings(t) {
		t.Run(name, func(t *testing.T) {
			home, road, key := parted(t)
			merged(t, home, road) // from now on home writes as another
			by := recordIn(t, home, look(t, "again"), inventory.Draft{Body: naming(key)})[1].Key
			for range 2 {
				if sum := merged(t, road, home); sum.Added != 0 || sum.SetAside != 3 {
					t.Errorf("road: %+v", sum)
				}
				if sum := merged(t, home, road); sum.Added != 0 {
					t.Errorf("home: %+v", sum)
				}
			}
			if _, cracks := cracksIn(t, road); cracks != 1 {
				t.Errorf("%d cracks stand on the road", cracks)
			}
			recordIn(t, home, look(t, "later"))
			if sum := merged(t, road, home); sum.Added != 1 {
				t.Errorf("what came after it: %+v", sum)
			}
			checkTaking(t, road, by, name != "clock set")
			if _, cracks := cracksIn(t, road); cracks != 1 {
				t.Errorf("%d cracks stand on the road after taking in", cracks)
			}
			merged(t, home, road)
			booktest.Check(t, home)
			booktest.Check(t, road)
		})
	}
}

// checkTaking takes in an entry that names another one that is set aside: before that is
// taken in it is refused, and after it means that one.
func checkTaking(t *testing.T, dir string, by inventory.Key, can bool) {
	t.Helper()
	b := booktest.Open(t, dir)
	defer closed(t, b)
	asides, err := b.Asides()
	if err != nil {
		t.Fatal(err)
	}
	var naming []book.Aside
	for _, action := range book.ActionsOf(asides) {
		if last := action[len(action)-1]; last.Event.Key == by {
			naming = action
		}
	}
	if len(naming) != 2 || naming[0].Reason != naming[1].Reason {
		t.Fatalf("set aside is %+v", asides)
	}
	if _, err := b.TakeAside(naming, booktest.Noted()); err == nil {
		t.Error("it is taken in before what it is about")
	}
	for _, action := range book.ActionsOf(asides) {
		if _, err := b.TakeAside(action, booktest.Noted()); (err == nil) != (can || action[0].Event.Key != naming[0].Event.Key) {
			t.Errorf("%v: %v", action[0].Event.Key, err)
		}
	}
}

// What names an entry that was put away is not taken in: it would meet the other one.
func TestWhatNamesAnEntryThatWasPutAwayStaysAside(t *testing.T) {
	home, road, key := parted(t)
	merged(t, home, road)
	recordIn(t, home, undo(key))
	merged(t, road, home)
	b := booktest.Open(t, road)
	asides, err := b.Asides()
	if err != nil || len(asides) != 2 {
		t.Fatalf("%v, %v", asides, err)
	}
	if err := b.DropAside(asides[:1]); err != nil {
		t.Fatal(err)
	}
	if _, err := b.TakeAside(asides[1:], booktest.Noted()); err == nil {
		t.Error("an undo of what was put away was taken in")
	}
	closed(t, b)
	merged(t, road, home)
	if _, cracks := cracksIn(t, road); cracks != 1 {
		t.Errorf("%d cracks stand", cracks)
	}
}

// A third book that holds an entry as this one does takes it back here, though another
// one of its key was set aside here.
func TestUndoOfTheSameEntryIsMerged(t *testing.T) {
	home, road, key := parted(t)
	merged(t, road, home) // the look is set aside, and the road writes as another
	third := booktest.Make(t)
	merged(t, third, road)
	recordIn(t, third, undo(key))
	if sum := merged(t, road, third); sum.SetAside != 0 {
		t.Errorf("%+v", sum)
	}
	if _, cracks := cracksIn(t, road); cracks != 0 {
		t.Errorf("%d cracks stand after they were taken back", cracks)
	}
}

// Whatever books of one writer that went on apart undo, merge and take in: a crack that
// nobody took back stands where it was noted.
func TestPartedBooksNeverUndoEachOthersCracks(t *testing.T) {
	for round := range times(120) {
		random := rand.New(rand.NewPCG(9, uint64(round)))
		home, road, key := parted(t)
		third := filesOf(t, []string{home, road}[random.IntN(2)]).write(t)
		dirs := []string{home, road, third}
		sound := make([][]inventory.Key, len(dirs))
		sound[0] = append(sound[0], key)
		for range 14 {
			i := random.IntN(len(dirs))
			switch random.IntN(5) {
			case 0:
				recordIn(t, dirs[i], crack(t, 1+i))
			case 1:
				sound[i] = append(sound[i], recordIn(t, dirs[i], look(t, time.Duration(random.Uint32()).String()))[0].Key)
			case 2:
				if len(sound[i]) > 0 {
					recordIn(t, dirs[i], undo(sound[i][random.IntN(len(sound[i]))]))
				}
			case 3:
				merged(t, dirs[i], dirs[(i+1+random.IntN(2))%3])
			case 4:
				takeWhatGoes(t, dirs[i])
			}
			for _, dir := range dirs {
				if all, stand := cracksIn(t, dir); all != stand {
					t.Fatalf("round %d: %d of %d cracks stand", round, stand, all)
				}
			}
		}
	}
}

func takeWhatGoes(t *testing.T, dir string) {
	t.Helper()
	b := quickly(t, dir)
	defer closed(t, b)
	asides, err := b.Asides()
	if err != nil {
		t.Fatal(err)
	}
	for _, action := range book.ActionsOf(asides) {
		_, _ = b.TakeAside(action, booktest.Noted())
	}
}

// mixed are what holds the entries of two books that went on apart: a folder with a file of
// each, and a file with the lines of both.
func mixed(t *testing.T, home, road string) map[string]string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "both.jsonl")
	if err := os.WriteFile(path, append(exported(t, home), exported(t, road)...), 0o600); err != nil {
		t.Fatal(err)
	}
	h, r := filesOf(t, home), filesOf(t, road)
	return map[string]string{
		"lines of both": path, "the road's book.db": files{h.journal, r.db}.write(t), "home's book.db": files{r.journal, h.db}.write(t),
	}
}

// A book that is rebuilt from what two copies hold keeps apart what names an entry of which
// there are two, as a merge does, with the rest of its action.
func TestRebuildKeepsApartWhatNamesAnotherEntry(t *testing.T) {
	for name, naming := range namings(t) {
		home, road, key := parted(t)
		merged(t, home, road) // from now on home writes as another
		by := recordIn(t, home, look(t, "again"), inventory.Draft{Body: naming(key)})
		for what, from := range mixed(t, home, road) {
			into, report := rebuilt(t, from)
			b := booktest.Open(t, into)
			asides, err := b.Asides()
			closed(t, b)
			var kept []inventory.Key
			crackAside := 0
			for _, one := range asides {
				kept = append(kept, one.Event.Key)
				if one.Event.Body.Kind() == "damage" {
					crackAside++
				}
			}
			if err != nil || report.SetAside != 3 || !slices.Contains(kept, by[0].Key) || !slices.Contains(kept, by[1].Key) {
				t.Errorf("%s, %s: %+v, %v set aside, %v", name, what, report, kept, err)
			}
			if all, stand := cracksIn(t, into); all != stand || stand+crackAside != 1 {
				t.Errorf("%s, %s: %d of %d cracks stand, and %d are set aside", name, what, stand, all, crackAside)
			}
		}
	}
}

// An entry of the same key that comes later in the order keeps apart what names it all the
// same.
func TestRebuildLooksAheadForKeysThatAreThereTwice(t *testing.T) {
	dir := booktest.Make(t)
	key := recordIn(t, dir, crack(t, 1))[0].Key
	recordIn(t, dir, undo(key))
	b := booktest.Open(t, dir)
	path := withLines(t, b, sealed(string(key.Writer), key.Sequence, 50, said("2025-11-05T07:00:00Z", "inspected", `{"pieces":["`+number(t, inventory.KindRunner)+`"],"sound":true}`)))
	closed(t, b)
	into, report := rebuilt(t, path)
	if _, stand := cracksIn(t, into); stand != 1 || report.SetAside != 2 {
		t.Errorf("%d cracks stand: %+v", stand, report)
	}
}

// A book that holds one of two entries, and kept the other beside it, is rebuilt as it is:
// what it says is about its own.
func TestRebuildOfABookThatSetAside(t *testing.T) {
	home, road, key := parted(t)
	merged(t, home, road)
	recordIn(t, home, undo(key))
	for _, drop := range []bool{false, true} {
		if drop {
			b := booktest.Open(t, home)
			asides, err := b.Asides()
			if err != nil || len(asides) != 1 || b.DropAside(asides) != nil {
				t.Fatal(asides, err)
			}
			closed(t, b)
		}
		into, report := rebuilt(t, home)
		if report.SetAside != 0 || !bytes.Equal(exported(t, into), exported(t, home)) {
			t.Errorf("%+v", report)
		}
		if is, err := os.ReadFile(filepath.Join(into, "set-aside.jsonl")); err != nil || bytes.Contains(is, []byte("dropped")) != drop {
			t.Errorf("%s, %v", is, err)
		}
	}
}

// What a person put away is not set aside again where a file brings it.
func TestRebuildCountsWhatWasPutAwayOnce(t *testing.T) {
	home, road, _ := parted(t)
	merged(t, home, road)
	b := booktest.Open(t, home)
	asides, err := b.Asides()
	if err != nil || len(asides) != 1 || b.DropAside(asides) != nil {
		t.Fatal(asides, err)
	}
	closed(t, b)
	from := mixed(t, home, road)["home's book.db"]
	aside, err := os.ReadFile(filepath.Join(home, "set-aside.jsonl"))
	if err := errors.Join(err, os.WriteFile(filepath.Join(from, "set-aside.jsonl"), aside, 0o600)); err != nil {
		t.Fatal(err)
	}
	into, report := rebuilt(t, from)
	if all, _ := cracksIn(t, into); all != 0 || report.SetAside != 0 {
		t.Errorf("%d cracks, %+v", all, report)
	}
}
