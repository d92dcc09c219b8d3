package book_test

import (
	"math/rand/v2"
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

// What one book says of its entry never meets the other one's under the same key: by
// undo, by finding both right, or by setting a clock right; nor where it is taken in.
func TestMergeKeepsApartWhatNamesAnotherEntry(t *testing.T) {
	player, err := inventory.NewNumber(inventory.KindPlayer, 1, 1)
	if err != nil {
		t.Fatal(err)
	}
	for name, naming := range map[string]func(key inventory.Key) inventory.Body{
		"undo":       func(key inventory.Key) inventory.Body { return &inventory.Correction{Voids: []inventory.Key{key}} },
		"both right": func(key inventory.Key) inventory.Body { return &inventory.Correction{Keeps: []inventory.Key{key}} },
		"clock set": func(key inventory.Key) inventory.Body {
			return &inventory.ClockSet{Of: key.Writer, Entries: []inventory.Run{{First: key.Sequence, Count: 1}}, By: 3600}
		},
		"clock right": func(key inventory.Key) inventory.Body { return &inventory.ClockRight{Doubts: []inventory.Key{key}} },
		"emergency closed": func(key inventory.Key) inventory.Body {
			return &inventory.EmergencyClosed{Emergency: key, Player: player}
		},
	} {
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
