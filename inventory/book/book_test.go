package book_test

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// drive records random actions, some of them in bulk, reopening now and then.
func drive(t *testing.T, dir string, seed uint64, actions int) {
	t.Helper()
	drawer := booktest.NewDrawer(seed)
	for range 4 {
		b, err := book.Open(dir, book.Options{})
		if err != nil {
			t.Fatal(err)
		}
		for range actions / 8 {
			drawer.Learn(booktest.Record(t, b, drawer.Action()...))
		}
		err = b.Bulk(func(record book.Recorder) error {
			for range actions / 8 {
				events, err := record(booktest.Stamp(), func(inventory.View) ([]inventory.Draft, error) { return drawer.Action(), nil })
				if err != nil {
					return err
				}
				drawer.Learn(events)
			}
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
	}
}

func TestRandomActionsKeepTheFold(t *testing.T) {
	t.Parallel()
	for seed := range uint64(5) {
		dir := booktest.Make(t)
		drive(t, dir, seed, 200)
		booktest.Check(t, dir)
	}
}

func TestStatesFollowEveryAction(t *testing.T) {
	b := booktest.New(t)
	drawer := booktest.NewDrawer(7)
	for range 60 {
		drawer.Learn(booktest.Record(t, b, drawer.Action()...))
		booktest.CheckFold(t, b)
	}
}

func TestActionIsStamped(t *testing.T) {
	b := booktest.New(t)
	events := booktest.Record(t, b, append(booktest.Opening(), booktest.Opening()...)...)
	if len(events) != 2 {
		t.Fatalf("%d events", len(events))
	}
	first, second := events[0], events[1]
	if first.Sequence != 2 || first.Logical != 2 || first.More != 1 || second.Sequence != 3 || second.More != 0 || first.Who != "Ylva" {
		t.Errorf("stamped %+v, %+v", first, second)
	}
	found, err := b.Find(second.Key)
	if err != nil || found.Key != second.Key || !found.Noted.Equal(booktest.Noted()) {
		t.Errorf("found %+v, %v", found, err)
	}
}

func TestTicketIsRecordedOnce(t *testing.T) {
	dir := booktest.Make(t)
	stamp := booktest.Stamp()
	stamp.Ticket = "scan 1"
	var keys []inventory.Key
	for range 3 {
		b := booktest.Open(t, dir)
		events, err := b.Record(stamp, func(inventory.View) ([]inventory.Draft, error) {
			return append(booktest.Opening(), booktest.Opening()...), nil
		})
		if err != nil || len(events) != 2 {
			t.Fatal(events, err)
		}
		keys = append(keys, events[1].Key)
		if err := b.Close(); err != nil {
			t.Fatal(err)
		}
	}
	if keys[0] != keys[1] || keys[1] != keys[2] {
		t.Errorf("recorded as %v", keys)
	}
}

// A ticket stands for one action: what was asked in the same words, or comes to the same.
func TestATicketIsForOneAction(t *testing.T) {
	opening := func(inventory.View) ([]inventory.Draft, error) { return booktest.Opening(), nil }
	twice := func(inventory.View) ([]inventory.Draft, error) {
		return append(booktest.Opening(), booktest.Opening()...), nil
	}
	failing := func(inventory.View) ([]inventory.Draft, error) { return nil, errors.New("refused") }
	later := func(inventory.View) ([]inventory.Draft, error) {
		drafts := booktest.Opening()
		drafts[0].Happened = inventory.At(booktest.Noted().AddDate(0, 0, -1))
		return drafts, nil
	}
	for _, first := range []string{"", "a"} { // an older program did not note what was asked
		for name, try := range map[string]struct {
			asked  string
			decide book.Decide
			same   bool
		}{
			"in the same words":                 {first, failing, true},
			"in other words, come to the same":  {"b", opening, true},
			"in other words, come to more":      {"b", twice, false},
			"in other words, about another day": {"b", later, false},
			"in other words, refused now":       {"b", failing, false},
		} {
			b := booktest.New(t)
			stamp := booktest.Stamp()
			stamp.Ticket, stamp.Asked = "scan 1", first
			want, err := b.Record(stamp, opening)
			if err != nil {
				t.Fatal(err)
			}
			stamp.Asked = try.asked
			stamp.Noted = stamp.Noted.Add(time.Hour)
			got, err := b.Record(stamp, try.decide)
			var another *book.TicketError
			if try.same && (err != nil || len(got) != 1 || got[0].Key != want[0].Key) {
				t.Errorf("%s: %v, %v", name, got, err)
			}
			if !try.same && (!errors.As(err, &another) || another.Recorded[0].Key != want[0].Key) {
				t.Errorf("%s: %v, %v", name, got, err)
			}
			if counts, err := b.Counts(); err != nil || counts.Events != 2 {
				t.Errorf("%s: %+v, %v", name, counts, err)
			}
		}
	}
}

func TestNothingDecidedRecordsNothing(t *testing.T) {
	b := booktest.New(t)
	refused := errors.New("refused")
	for _, want := range []error{nil, refused} {
		events, err := b.Record(booktest.Stamp(), func(inventory.View) ([]inventory.Draft, error) { return nil, want })
		if len(events) != 0 || !errors.Is(err, want) {
			t.Errorf("%v, %v", events, err)
		}
	}
	if counts, err := b.Counts(); err != nil || counts.Events != 1 {
		t.Errorf("%+v, %v", counts, err)
	}
}

func TestPanicOfACallerStaysOne(t *testing.T) {
	b := booktest.New(t)
	defer func() {
		if p := recover(); p != "mine" {
			t.Errorf("recovered %v", p)
		}
		booktest.Record(t, b, booktest.Opening()...)
	}()
	_, err := b.Record(booktest.Stamp(), func(inventory.View) ([]inventory.Draft, error) { panic("mine") })
	t.Errorf("no panic but %v", err)
}

func TestFindTyped(t *testing.T) {
	b := booktest.New(t)
	event := booktest.Record(t, b, booktest.Opening()...)[0]
	for _, text := range []string{"2", " 2@" + string(event.Writer[:4]), event.Key.String(), "2@" + string(event.Writer)} {
		if found, err := b.FindTyped(text); err != nil || found.Key != event.Key {
			t.Errorf("%q: %v, %v", text, found.Key, err)
		}
	}
	for _, text := range []string{"", "0", "3", "two", "2@zz", "-1", "99999999999999999999", "18446744073709551615"} {
		var unknown *book.UnknownEventError
		if found, err := b.FindTyped(text); !errors.As(err, &unknown) {
			t.Errorf("%q: %v, %v", text, found.Key, err)
		}
	}
}

func TestExportIsTheJournal(t *testing.T) {
	dir := booktest.Make(t)
	drive(t, dir, 3, 80)
	b := booktest.Open(t, dir)
	var out bytes.Buffer
	if err := b.Export(&out); err != nil {
		t.Fatal(err)
	}
	journal, err := os.ReadFile(filepath.Join(dir, "journal.jsonl"))
	if err != nil || !bytes.Equal(journal, out.Bytes()) || strings.Count(out.String(), "\n") < 80 {
		t.Errorf("exported %d bytes, the journal has %d (%v)", out.Len(), len(journal), err)
	}
}

func TestHistoryGivesTheLastOnes(t *testing.T) {
	b := booktest.New(t)
	for range 300 {
		booktest.Record(t, b, booktest.Opening()...)
	}
	all, err := b.History(inventory.ClubRef, 0)
	if err != nil || len(all) != 301 {
		t.Fatal(len(all), err)
	}
	for _, limit := range []int{1, 50, 100, 301, 400} {
		last, err := b.History(inventory.ClubRef, limit)
		if err != nil || len(last) != min(limit, 301) || last[len(last)-1].Key != all[300].Key || last[0].Key != all[301-len(last)].Key {
			t.Errorf("limit %d: %d events, %v", limit, len(last), err)
		}
	}
}
