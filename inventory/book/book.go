// Package book keeps the record: a folder with a text journal and a bbolt file, each
// the other's witness.
//
//	journal.jsonl  one event a line, in the order in which they were recorded
//	book.db        the same lines in fold order, the folded states, the indexes
//	lock           who has the book open
//	set-aside.jsonl  events that came from elsewhere and can't be in the record, with why
//	journal.mending  what the journal was, where a mend of it was cut off
//
// A line of the journal is an event as inventory writes it, with one more member at
// its end: the CRC-32C of all bytes before it. An action is appended with one write
// and synced; that is the moment from which on it counts. Then book.db takes it in
// one transaction. So book.db may be behind the journal, never before it.
//
// The buckets of book.db:
//
//	book     "book" → what is said of the book as a whole (see head)
//	events   order of the event → its line, see slim
//	runs     writer, first sequence → first logical time and length of a run
//	tickets  caller's key → order of the first event of its action
//	voids    key of an event, key of a correction that voids it → nothing
//	things   ref, 0 → folded state, packed; ref, 1, order → where its events are
//	flagged  ref of each stored state that the record is unsure of → nothing
//
// Every value but the lines starts with a CRC-32C over its key and the rest.
package book

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"sync"
	"sync/atomic"

	"go.etcd.io/bbolt"

	"steeltally/inventory"
)

// Options say how a book is opened.
type Options struct {
	ReadOnly bool      // others can read at the same time; nothing can be recorded
	Program  string    // how others are told who has the book; the default is the program's name
	Random   io.Reader // where the id of a new writer comes from; the default is the system's
	// Marks is a folder of this machine, outside of the book, that keeps how far its writers
	// have come; empty: there is none.
	Marks string
	// Progress is told how far something long has come; nil: nobody asks. The steps are
	// "read" (lines of a book that is rebuilt or merged) and "folded" (into states).
	Progress func(step string, done, of int)

	copied bool    // a copy that only this program reads: its writer stays
	faults *faults // of tests
}

// faults lets a test put failing parts in the place of the real ones.
type faults struct {
	unsynced bool
	journal  func(file) file
	commit   func(commit func() error) error
}

// Book is an open book. Its methods can be called from several goroutines.
type Book struct {
	dir     string
	options Options
	lock    *lock
	journal *journal
	db      *bbolt.DB
	opened  map[string]os.FileInfo // the files, as they were when opened

	shared shared

	broken atomic.Pointer[error] // why nothing more can be done before it is opened again
	whole  sync.RWMutex          // held for writing while states are not to be looked at

	mutex  sync.Mutex // held while recording
	reach  reaching
	packer packer
	held   map[inventory.Ref]inventory.Entity // states at hand for the next transaction
}

// Close lets go of the book.
func (b *Book) Close() error {
	b.mutex.Lock()
	defer b.mutex.Unlock()
	if errors.Is(b.usable(), errClosed) {
		return nil
	}
	b.broken.Store(&errClosed)
	return b.release()
}

func (b *Book) release() error {
	var errs []error
	if b.db != nil {
		errs = append(errs, guarded(neverCalling, b.db.Close))
	}
	if b.journal != nil {
		errs = append(errs, b.journal.file.Close())
	}
	errs = append(errs, b.reach.close())
	if b.lock != nil {
		errs = append(errs, b.lock.release())
	}
	return errors.Join(errs...)
}

// tell reports how far something long has come.
func (b *Book) tell(step string, done, of int) {
	if b.options.Progress != nil {
		b.options.Progress(step, done, of)
	}
}

// Wanted tells whether another program waits for the book: who has it for long lets go of
// it then, and is the next one after that program.
func (b *Book) Wanted() bool { return b.lock != nil && b.usable() == nil && b.lock.wanted() }

// Dir is the book's folder.
func (b *Book) Dir() string { return b.dir }

// Read looks at one state of the record, however much is recorded meanwhile. What
// look is given must not be kept.
func (b *Book) Read(look func(inventory.View) error) error {
	return b.reading(func(r *reading) error {
		v := &view{r: r}
		r.calling = true
		err := look(v)
		r.calling = false
		return errors.Join(v.err, err)
	})
}

// reading runs something in a transaction that sees one state.
func (b *Book) reading(run func(*reading) error) error {
	if err := b.usable(); err != nil {
		return err
	}
	b.whole.RLock()
	defer b.whole.RUnlock()
	return b.readingNow(run)
}

// readingNow is reading for who keeps others out already.
func (b *Book) readingNow(run func(*reading) error) error {
	var r *reading
	calling := func() bool { return r != nil && r.calling }
	return guarded(calling, func() error {
		return b.db.View(func(tx *bbolt.Tx) (err error) {
			if r, err = newReading(tx, &b.shared); err != nil {
				return err
			}
			if err := b.shared.recentsFor(r); err != nil {
				return err
			}
			return run(r)
		})
	})
}

func (b *Book) usable() error {
	if broken := b.broken.Load(); broken != nil {
		return *broken
	}
	return nil
}

// inPlace tells whether the book's files are still the ones that were opened.
func (b *Book) inPlace() error {
	for name, was := range b.opened {
		is, err := os.Stat(filepath.Join(b.dir, name))
		if err != nil || !os.SameFile(was, is) {
			return &MovedError{filepath.Join(b.dir, name)}
		}
	}
	return nil
}
