package book_test

import (
	"errors"
	"fmt"
	"testing"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/book/booktest"
)

var errFault = errors.New("the disk failed")

// faultyFile fails one of its calls, counted over all of them.
type faultyFile struct {
	book.File
	countdown *int
	half      bool // a write that fails has written a half
}

func (f faultyFile) fails() bool {
	*f.countdown--
	return *f.countdown == 0
}

func (f faultyFile) WriteAt(data []byte, at int64) (int, error) {
	if !f.fails() {
		return f.File.WriteAt(data, at)
	}
	if !f.half {
		return 0, errFault
	}
	n, err := f.File.WriteAt(data[:len(data)/2], at)
	return n, errors.Join(err, errFault)
}

func (f faultyFile) Sync() error {
	if f.fails() {
		return errFault
	}
	return f.File.Sync()
}

func (f faultyFile) Truncate(size int64) error {
	if f.fails() {
		return errFault
	}
	return f.File.Truncate(size)
}

// faulty are options with which the call with a number fails: writes, syncs and cuts
// of the journal and commits of book.db count, in the order in which they come. A
// commit may fail and yet have happened.
func faulty(number int, half bool) (book.Options, *int) {
	countdown := number
	commit := func(commit func() error) error {
		if countdown--; countdown != 0 {
			return commit()
		}
		if half {
			return errors.Join(commit(), errFault)
		}
		return errFault
	}
	return book.Faulty(func(f book.File) book.File { return faultyFile{f, &countdown, half} }, commit), &countdown
}

// Whatever call fails: the error says that the outcome is unknown, the book does
// nothing more, and a retry with the same ticket gives exactly one action.
func TestEveryFaultIsUnknownAndRetriedOnce(t *testing.T) {
	for _, half := range []bool{false, true} {
		faults := 0
		for number := 1; ; number++ {
			fault, left := recordWithFault(t, number, half)
			if left > 0 {
				break // there are no more calls that can fail
			}
			if !fault {
				t.Errorf("call %d failed and nobody noticed", number)
			}
			faults++
		}
		if faults < 9 {
			t.Errorf("only %d calls were made to fail", faults)
		}
	}
}

// recordWithFault records three actions and retries what failed. It tells whether
// there was a fault, and how many calls were left before one.
func recordWithFault(t *testing.T, number int, half bool) (fault bool, left int) {
	t.Helper()
	dir := booktest.Make(t)
	options, countdown := faulty(number, half)
	for action := range 3 {
		if err := recordOnce(dir, options, action); err != nil {
			fault = true
			if !errors.Is(err, errFault) {
				t.Errorf("call %d: %v", number, err)
			}
			if err := recordOnce(dir, book.Options{}, action); err != nil {
				t.Errorf("the retry after call %d: %v", number, err)
			}
		}
	}
	booktest.Check(t, dir)
	if count := countOf(t, dir); count != 1+3*2 {
		t.Errorf("after a fault in call %d there are %d events", number, count)
	}
	return fault, *countdown
}

// recordOnce opens a book, records an action of two events, and closes it. What fails
// must leave the book unusable.
func recordOnce(dir string, options book.Options, action int) error {
	b, err := book.Open(dir, options)
	if err != nil {
		return err
	}
	stamp := booktest.Stamp()
	stamp.Ticket = fmt.Sprint("scan ", action)
	two := func(inventory.View) ([]inventory.Draft, error) {
		return append(booktest.Opening(), booktest.Opening()...), nil
	}
	_, err = b.Record(stamp, two)
	var unknown *book.UnknownError
	if err != nil && !errors.As(err, &unknown) {
		return errors.Join(fmt.Errorf("the outcome should be unknown: %w", err), b.Close())
	}
	if err != nil {
		if _, again := b.Record(stamp, two); !errors.As(again, &unknown) {
			err = fmt.Errorf("the book was used again after a fault: %w", again)
		}
	}
	return errors.Join(err, b.Close())
}

// A state that cannot be read must not look like one that is not there.
func TestAFailedReadRecordsNothing(t *testing.T) {
	dir := booktest.Make(t)
	if err := errors.Join(book.Settle(dir), book.Spoil(dir, inventory.ClubRef)); err != nil {
		t.Fatal(err)
	}
	b, err := book.Open(dir, book.Options{})
	if err != nil {
		t.Fatal(err)
	}
	defer b.Close()
	asked := false
	_, err = b.Record(booktest.Stamp(), func(v inventory.View) ([]inventory.Draft, error) {
		asked = v.Entity(inventory.ClubRef) == nil
		return booktest.Opening(), nil
	})
	var damage *book.DamageError
	if !errors.As(err, &damage) || !asked {
		t.Errorf("a decision on what could not be read: %v", err)
	}
	if counts, err := b.Counts(); err != nil || counts.Events != 1 {
		t.Errorf("%d events, %v", counts.Events, err)
	}
}

// Finishing what a crash left can fail too, and is done again.
func TestFaultsWhileOpening(t *testing.T) {
	before, after := aBook(t, 5)
	unfinished := files{after.journal[:len(after.journal)-1], before.db}
	behind := files{after.journal, before.db}
	for what, f := range map[string]files{"an unfinished action": unfinished, "book.db behind": behind} {
		for number := 1; ; number++ {
			dir := f.write(t)
			options, left := faulty(number, false)
			if b, err := book.Open(dir, options); err == nil {
				if err := b.Close(); err != nil {
					t.Fatal(err)
				}
				if *left <= 0 {
					t.Errorf("%s: call %d failed and nobody noticed", what, number)
				}
				if number == 1 {
					t.Errorf("%s: no call was made to fail", what)
				}
				break
			}
			booktest.Check(t, dir)
		}
	}
}
