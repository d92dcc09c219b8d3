package book

import (
	"errors"
	"fmt"
	"time"

	"go.etcd.io/bbolt"
	bolterrors "go.etcd.io/bbolt/errors"

	"steeltally/inventory"
)

// Stamp is what a book notes of an action besides what was decided.
type Stamp struct {
	Who    string    // who notes it
	Noted  time.Time // when
	Ticket string    // the caller's own key; an action given again with it is recorded once
	Asked  string    // a fingerprint of what was asked with that key; empty: not known
}

// Decide looks at the record as it stands and says what shall be recorded: one action.
// It must not keep or change what it is given.
type Decide func(inventory.View) ([]inventory.Draft, error)

// Record carries out one action: it decides, and what is decided is on disk when it
// returns. Nothing decided records nothing. An action whose ticket is known records
// nothing and gives what was recorded then; another action with it is a TicketError. After
// an UnknownError the book has to be opened again.
func (b *Book) Record(stamp Stamp, decide Decide) ([]inventory.Event, error) {
	b.mutex.Lock()
	defer b.mutex.Unlock()
	var events []inventory.Event
	err := b.changing(func(w *writing) (err error) {
		events, err = w.record(stamp, decide)
		return err
	})
	if err != nil {
		return nil, err
	}
	return events, nil
}

// changing runs something in a transaction and commits what it added.
func (b *Book) changing(run func(*writing) error) error {
	if err := b.writable(); err != nil {
		return err
	}
	var w *writing
	calling := func() bool { return w != nil && w.calling }
	return guarded(calling, func() error {
		tx, err := b.db.Begin(true)
		if err != nil {
			return err
		}
		defer b.discard(tx)
		if w, err = b.newWriting(tx); err != nil {
			return err
		}
		if err := run(w); err != nil || w.added == 0 {
			b.keepUnused(w)
			return err
		}
		return b.commit(w)
	})
}

func (b *Book) writable() error {
	if err := b.usable(); err != nil {
		return err
	}
	if b.options.ReadOnly {
		return errReadOnly
	}
	return b.inPlace()
}

// discard lets go of a transaction, whether or not it was committed.
func (b *Book) discard(tx *bbolt.Tx) {
	err := guarded(neverCalling, tx.Rollback)
	if err != nil && !errors.Is(err, bolterrors.ErrTxClosed) {
		b.broken.CompareAndSwap(nil, &err)
	}
}

// commit writes the lines to the journal, and then everything to book.db. From the
// first write on an error means that the outcome is not known.
func (b *Book) commit(w *writing) error {
	w.noteLines(b.journal.size)
	if err := w.finish(); err != nil {
		return err
	}
	if err := b.roomFor(len(w.lines)); err != nil {
		return err
	}
	err := b.journal.append(w.lines)
	if err == nil {
		err = b.commitDB(w.tx)
	}
	if err != nil {
		err = &UnknownError{err}
		b.broken.Store(&err)
		return err
	}
	b.keep(w)
	b.reach.advance(w.own, w.ownSum)
	return nil
}

// keepUnused keeps the states at hand where nothing was added to them.
func (b *Book) keepUnused(w *writing) {
	if w.added == 0 {
		b.held = w.held
	}
}

func (b *Book) commitDB(tx *bbolt.Tx) error {
	commit := func() error { return guarded(neverCalling, tx.Commit) }
	if b.options.faults != nil && b.options.faults.commit != nil {
		return b.options.faults.commit(commit)
	}
	return commit()
}

// record decides one action and adds its events.
func (w *writing) record(stamp Stamp, decide Decide) ([]inventory.Event, error) {
	if stamp.Noted.IsZero() {
		return nil, errNobody
	}
	if err := errors.Join(checkTicket(stamp.Ticket), inventory.CheckText(stamp.Who)); err != nil {
		return nil, err
	}
	if earlier, err := w.actionOf(stamp.Ticket); err != nil || earlier != nil {
		if err == nil && earlier[0].Asked != stamp.Asked {
			err = w.checkSame(stamp, earlier, decide)
		}
		return earlier, err
	}
	drafts, err := w.decide(decide)
	if err == nil {
		err = inventory.CheckWritten(drafts)
	}
	if err != nil {
		return nil, err
	}
	return w.addAction(stamp, drafts)
}

func (w *writing) decide(decide Decide) ([]inventory.Draft, error) {
	v := &view{r: w.reading, w: w}
	w.calling = true
	drafts, err := decide(v)
	w.calling = false
	return drafts, errors.Join(v.err, err)
}

// addAction stamps what was decided and adds it, with its lines for the journal.
func (w *writing) addAction(stamp Stamp, drafts []inventory.Draft) ([]inventory.Event, error) {
	last, err := w.lastSequence(w.head.Writer)
	if err != nil {
		return nil, err
	}
	events := make([]inventory.Event, len(drafts))
	lines := make([][]byte, len(drafts))
	for i, draft := range drafts {
		events[i] = inventory.Event{
			Key:     inventory.Key{Writer: w.head.Writer, Sequence: last + 1 + uint64(i)},
			Logical: w.head.Last.logical() + 1 + uint64(i), Happened: draft.Happened,
			Noted: stamp.Noted.UTC().Truncate(time.Millisecond), Who: stamp.Who,
			More: len(drafts) - 1 - i, Body: draft.Body,
		}
		if i == 0 {
			events[i].Ticket, events[i].Asked = stamp.Ticket, stamp.Asked
		}
		if !events[i].InYears() {
			return nil, inventory.RefuseValue(fmt.Sprintf("%s is no time that the record can be about", events[i].Happened.Say(time.UTC)), "check the date and the year")
		}
		if lines[i], err = encodeLine(&events[i]); err != nil {
			return nil, err
		}
	}
	return events, w.addLines(events, lines)
}

func (w *writing) addLines(events []inventory.Event, lines [][]byte) error {
	for i, line := range lines {
		w.addLine(line)
		if err := w.add(&events[i], line); err != nil {
			return err
		}
		w.own, w.ownSum = append(w.own, &events[i]), lineSum(line)
	}
	return nil
}

// addLine adds a line for the journal.
func (w *writing) addLine(line []byte) {
	w.lines = append(append(w.lines, line...), '\n')
	w.lastLine = len(line) + 1
}

// noteLines says up to where the journal will be in book.db.
func (w *writing) noteLines(size int64) {
	w.head.Journal = size + int64(len(w.lines))
	w.head.LastLine = w.head.Journal - int64(w.lastLine)
}
