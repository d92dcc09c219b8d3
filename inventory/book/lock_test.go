package book_test

import (
	"errors"
	"runtime"
	"strings"
	"sync"
	"testing"
	"time"

	"fmt"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

// held runs a program that has a book open, until the test ends.
func held(t *testing.T, dir string) (process int) {
	t.Helper()
	cmd := child("hold", dir)
	in, err := cmd.StdinPipe()
	if err != nil {
		t.Fatal(err)
	}
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	if _, err := out.Read(make([]byte, 10)); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := errors.Join(in.Close(), cmd.Wait()); err != nil {
			t.Error(err)
		}
	})
	return cmd.Process.Pid
}

func TestHolderIsNamedInTime(t *testing.T) {
	dir := booktest.Make(t)
	process := held(t, dir)
	for _, readOnly := range []bool{false, true} {
		start := time.Now()
		_, err := book.Open(dir, book.Options{ReadOnly: readOnly})
		took := time.Since(start)
		var inUse *book.InUseError
		if !errors.As(err, &inUse) || inUse.Holder.Process != process || !strings.Contains(err.Error(), "the other desk") {
			t.Errorf("the holder is not named: %v", err)
		}
		if took > 10*time.Second { // 600 ms on an idle machine; a busy one must not fail the check
			t.Errorf("refused after %v", took)
		}
	}
}

func TestReadersShare(t *testing.T) {
	dir := booktest.Make(t)
	for range 3 {
		b, err := book.Open(dir, book.Options{ReadOnly: true})
		if err != nil {
			t.Fatal(err)
		}
		defer b.Close()
		if _, err := b.Record(booktest.Stamp(), nil); err == nil {
			t.Error("a book opened for reading recorded something")
		}
	}
	var inUse *book.InUseError
	if _, err := book.Open(dir, book.Options{}); !errors.As(err, &inUse) {
		t.Errorf("a writer beside readers: %v", err)
	}
}

// raceChild records one action as soon as it gets the book.
func raceChild(dir string) error {
	for {
		b, err := book.Open(dir, book.Options{})
		var inUse *book.InUseError
		if errors.As(err, &inUse) {
			continue
		}
		if err != nil {
			return err
		}
		_, err = b.Record(booktest.Stamp(), func(inventory.View) ([]inventory.Draft, error) { return booktest.Opening(), nil })
		return errors.Join(err, b.Close())
	}
}

func TestRacesCorruptNothing(t *testing.T) {
	t.Parallel()
	const programs = 4
	dir := booktest.Make(t)
	races := times(200)
	for range races {
		var all sync.WaitGroup
		for range programs {
			all.Go(func() {
				if err := child("race", dir).Run(); err != nil {
					t.Error(err)
				}
			})
		}
		all.Wait()
	}
	b := booktest.Open(t, dir)
	if counts, err := b.Counts(); err != nil || counts.Events != uint64(1+races*programs) {
		t.Errorf("%d events after %d races of %d programs: %v", counts.Events, races, programs, err)
	}
}

// Readers see one state each, never an older one than before, and never half of an
// action, while one goroutine records and takes back.
func TestReadsGoOnWhileRecording(t *testing.T) {
	b := booktest.New(t)
	var all sync.WaitGroup
	done := make(chan struct{})
	for range 3 {
		all.Go(func() {
			for last := 0; ; {
				select {
				case <-done:
					return
				default:
				}
				if last = readOnce(t, b, last); last < 0 {
					return
				}
			}
		})
	}
	drawer := booktest.NewDrawer(6)
	for i := range 200 {
		draft := booktest.Opening()[0]
		draft.Body = &inventory.ClubNoted{Name: fmt.Sprint("Terns ", i), Zone: "UTC", Station: 1}
		booktest.Record(t, b, draft, draft)
		drawer.Learn(booktest.Record(t, b, drawer.Action()...))
	}
	close(done)
	all.Wait()
}

// readOnce looks at the club's history and at all players, or gives -1.
func readOnce(t *testing.T, b *book.Book, last int) int {
	history, err := b.History(inventory.ClubRef, 0)
	clubs := 0
	for _, entry := range history {
		if entry.Body.Kind() == "club" {
			clubs++
		}
	}
	if err != nil || clubs < last || clubs%2 != 1 {
		t.Errorf("%d events after %d: %v", clubs, last, err)
		return -1
	}
	err = b.Read(func(v inventory.View) error {
		v.Each(inventory.KindPlayer, func(n inventory.Number, state inventory.Entity) bool {
			return state.(*inventory.Player).Number == n
		})
		return nil
	})
	if err != nil {
		t.Error(err)
	}
	return clubs
}

// TestWhoWaitsIsNext: a program that takes the book again and again, as fast as it can,
// lets one that waits have its turn before its own next one.
func TestWhoWaitsIsNext(t *testing.T) {
	dir := booktest.Make(t)
	const turns = 25
	for _, readOnly := range []bool{false, true} {
		for range turns {
			busy, err := book.Open(dir, book.Options{})
			if err != nil || busy.Wanted() {
				t.Fatalf("nobody waits, and it is wanted: %v", err)
			}
			got := make(chan error)
			go func() {
				b, err := book.Open(dir, book.Options{ReadOnly: readOnly})
				got <- err
				if err == nil {
					<-got
					got <- b.Close()
				}
			}()
			for !busy.Wanted() {
				select {
				case err := <-got:
					t.Fatalf("who has the book is not told that another one waits: %v", err)
				default:
					runtime.Gosched()
				}
			}
			again := make(chan *book.Book)
			if err := busy.Close(); err != nil {
				t.Fatal(err)
			}
			go func() {
				for {
					if b, err := book.Open(dir, book.Options{}); err == nil {
						again <- b
						return
					}
				}
			}()
			select {
			case err := <-got:
				if err != nil {
					t.Fatal(err)
				}
			case b := <-again:
				t.Fatalf("who had the book has it again: %v", b.Close())
			}
			got <- nil
			if err := errors.Join(<-got, (<-again).Close()); err != nil {
				t.Fatal(err)
			}
		}
	}
}
