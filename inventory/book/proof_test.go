package book_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"
	"slices"
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// questions are all that can be asked of a book, with the pieces, keys and events of it
// and some that it does not have.
type questions struct {
	refs    []inventory.Ref
	tickets []string
	keys    []inventory.Key
}

// ask gives an answer to each question, or the damage that was met.
func (q questions) ask(b *book.Book) []string {
	var answers []string
	answer := func(what string, value any, err error) {
		text, failed := json.Marshal(value)
		if err = errors.Join(err, failed); err != nil {
			text = nil
		}
		answers = append(answers, answerTo(what, string(text), err))
	}
	for _, ref := range q.refs {
		var state inventory.Entity
		err := b.Read(func(v inventory.View) error {
			state = v.Entity(ref)
			return nil
		})
		answer("the state of "+string(ref), state, err)
		history, err := b.History(ref, 0)
		answer("the history of "+string(ref), history, err)
		count, err := b.Touching(ref)
		answer("how many touch "+string(ref), count, err)
	}
	for _, ticket := range q.tickets {
		events, err := b.Known(ticket)
		answer("what is known of "+ticket, events, err)
	}
	for _, key := range q.keys {
		entry, err := b.Find(key)
		answer("event "+key.String(), entry, unlessUnknown(err))
	}
	end, err := b.History(inventory.ClubRef, 2)
	answer("the end of the history of the club", end, err)
	latest, err := b.Latest(12)
	answer("the latest", latest, err)
	var all []inventory.Key
	err = b.All(func(e inventory.Event, _ []byte) error {
		all = append(all, e.Key)
		return nil
	})
	answer("all", all, err)
	for kind := inventory.KindRunner; kind <= inventory.KindPlayer; kind++ {
		var found []inventory.Number
		err := b.Read(func(v inventory.View) error {
			v.Each(kind, func(n inventory.Number, _ inventory.Entity) bool {
				found = append(found, n)
				return true
			})
			return nil
		})
		answer(fmt.Sprint("the pieces of kind ", kind), found, err)
	}
	var flagged []inventory.Ref
	err = b.Read(func(v inventory.View) error {
		flagged = slices.DeleteFunc(v.(interface{ MayBeFlagged() []inventory.Ref }).MayBeFlagged(), func(ref inventory.Ref) bool {
			return !inventory.IsFlagged(v.Entity(ref))
		})
		return nil
	})
	answer("what is flagged", flagged, err)
	return answers
}

const metDamage = "damage"

func answerTo(what, text string, err error) string {
	var damage *book.DamageError
	switch {
	case errors.As(err, &damage):
		return metDamage
	case err != nil:
		return fmt.Sprintf("%s: an odd error: %v", what, err)
	}
	return what + ": " + text
}

// unlessUnknown takes an event that the book does not know for an answer.
func unlessUnknown(err error) error {
	var unknown *book.UnknownEventError
	if errors.As(err, &unknown) {
		return nil
	}
	return err
}

// askedBook is a closed book with some thousand entries in every index, most of them
// stored and some recent, and the questions to it.
func askedBook(t *testing.T) (string, questions) {
	t.Helper()
	dir := booktest.Make(t)
	drive(t, dir, 41, 160)
	q := questions{tickets: []string{"never"}, keys: []inventory.Key{{Writer: "00000000000000aa", Sequence: 1}}}
	record := func(from, to int) {
		b := booktest.Open(t, dir)
		drawer := booktest.NewDrawer(42).Knowing(keysOf(t, b))
		for i := from; i < to; i++ {
			stamp := booktest.Stamp()
			stamp.Ticket = fmt.Sprintf("day 3, line %d", i*7919%1000) // in no order
			events, err := b.Record(stamp, func(inventory.View) ([]inventory.Draft, error) { return drawer.Action(), nil })
			if err != nil {
				t.Fatal(err)
			}
			drawer.Learn(events)
			q.tickets = append(q.tickets, stamp.Ticket)
		}
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
	}
	record(0, 120)
	if err := book.Settle(dir); err != nil {
		t.Fatal(err)
	}
	record(120, 130)
	b := booktest.Open(t, dir)
	defer b.Close()
	for i, key := range keysOf(t, b) {
		if i%12 == 0 {
			q.keys = append(q.keys, key)
		}
	}
	q.refs = []inventory.Ref{inventory.ClubRef, inventory.RosterRef}
	for kind := inventory.KindRunner; kind <= inventory.KindPlayer; kind++ {
		for running := range 13 {
			if n, err := inventory.NewNumber(kind, 1, 1+running); err == nil {
				q.refs = append(q.refs, inventory.RefOf(n))
			}
		}
	}
	return dir, q
}

func keysOf(t *testing.T, b *book.Book) (keys []inventory.Key) {
	t.Helper()
	err := b.All(func(e inventory.Event, _ []byte) error {
		keys = append(keys, e.Key)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return keys
}

// A byte that flipped in a key, in the header of a page or of an entry never makes a
// piece, an entry or a caller's key look as if it had never been there.
func TestDamageIsNeverTakenForNothing(t *testing.T) {
	t.Parallel()
	dir, q := askedBook(t)
	whole := filesOf(t, dir)
	want := q.ask(booktest.Open(t, dir))
	if slices.Contains(want, metDamage) {
		t.Fatal("the whole book is damaged")
	}
	keys, headers := book.Places(t, filepath.Join(dir, "book.db"))
	for what, places := range map[string][]int{"keys": keys, "headers": headers} {
		refused, met := 0, 0
		for range times(1000) {
			f := files{whole.journal, slices.Clone(whole.db)}
			at := places[rand.IntN(len(places))]
			f.db[at] ^= 1 << rand.IntN(8)
			folder := f.write(t)
			b, err := book.Open(folder, book.Options{ReadOnly: true})
			if err != nil {
				if answerTo("", "", err) != metDamage {
					t.Fatalf("byte %d: %v", at, err)
				}
				refused++
				continue
			}
			for i, got := range q.ask(b) {
				if got == metDamage {
					met++
				} else if got != want[i] {
					t.Fatalf("byte %d of the %s:\n got %.300s\nwant %.300s", at, what, got, want[i])
				}
			}
			if err := errors.Join(b.Close(), os.RemoveAll(folder)); err != nil {
				t.Fatal(err)
			}
		}
		t.Logf("%s, %d bytes: %d books refused, %d answers refused", what, len(places), refused, met)
		if met == 0 {
			t.Errorf("no damage of the %s was met while reading, so nothing is proved", what)
		}
	}
}

// Nor does one make a clock that was set right look as if nobody had.
func TestDamageHidesNoClockThatWasSet(t *testing.T) {
	t.Parallel()
	dir := booktest.Make(t)
	first := recordIn(t, dir, look(t, "sound"))[0]
	recordIn(t, dir, inventory.Draft{Body: &inventory.ClockSet{Of: first.Writer, Entries: []inventory.Run{{First: first.Sequence, Count: 1}}, By: 3600}})
	recordIn(t, dir, look(t, "again"))
	history := func(dir string) string {
		b, err := book.Open(dir, book.Options{ReadOnly: true})
		if err != nil {
			return answerTo("", "", err)
		}
		defer closed(t, b)
		entries, err := b.History(inventory.TouchedOnce(&first)[0], 0)
		text, failed := json.Marshal(entries)
		return answerTo("", string(text), errors.Join(err, failed))
	}
	if err := book.Settle(dir); err != nil {
		t.Fatal(err)
	}
	whole := filesOf(t, dir)
	want := history(dir)
	if want == metDamage {
		t.Fatal("the whole book is damaged")
	}
	_, headers := book.Places(t, filepath.Join(dir, "book.db"))
	met, damaged := 0, whole.write(t)
	for _, at := range headers {
		for bit := range 4 { // where a page says that something lies elsewhere near
			db := slices.Clone(whole.db)
			db[at] ^= 1 << bit
			if err := os.WriteFile(filepath.Join(damaged, "book.db"), db, 0o600); err != nil {
				t.Fatal(err)
			}
			switch got := history(damaged); got {
			case metDamage:
				met++
			case want:
			default:
				t.Fatalf("bit %d of byte %d:\n got %s\nwant %s", bit, at, got, want)
			}
		}
	}
	t.Logf("%d bytes of headers: %d of %d flips were met", len(headers), met, 4*len(headers))
	if met == 0 {
		t.Error("no damage was met while reading, so nothing is proved")
	}
}
