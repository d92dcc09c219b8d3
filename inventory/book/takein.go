package book

import (
	"errors"
	"io"

	"steeltally/inventory"
)

// batchEvents is how many events go into one transaction where many are taken in.
const batchEvents = 4096

// batchBytes is how long the lines of such a transaction can be: what long lines void
// takes room, too.
const batchBytes = 4 << 20

// roomInBatch tells whether more events go into a transaction.
func (w *writing) roomInBatch() bool { return w.added < batchEvents && len(w.lines) < batchBytes }

// takeIn brings book.db up from a place in the journal on.
func (b *Book) takeIn(from int64) error {
	lines := b.journal.lines(from)
	for done := false; !done; {
		err := b.changingDB(func(w *writing) (err error) {
			done, err = w.takeLines(lines)
			return err
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// changingDB runs something in a transaction that leaves the journal alone.
func (b *Book) changingDB(run func(*writing) error) error {
	return guarded(neverCalling, func() error {
		tx, err := b.db.Begin(true)
		if err != nil {
			return err
		}
		defer b.discard(tx)
		w, err := b.newWriting(tx)
		if err != nil {
			return err
		}
		if err := run(w); err != nil {
			return err
		}
		if err := w.finish(); err != nil {
			return err
		}
		if err := b.commitDB(tx); err != nil {
			return err
		}
		b.keep(w)
		return nil
	})
}

// takeLines adds the next lines of the journal, a batch of whole actions at most.
func (w *writing) takeLines(lines *journalLines) (done bool, err error) {
	for {
		start := lines.at
		line, _, err := lines.next()
		if errors.Is(err, io.EOF) {
			return true, nil
		}
		if err != nil {
			return false, err
		}
		e, err := decodeLine(line)
		if err != nil {
			return false, &DamageError{journalName, err.Error()}
		}
		if err := w.addTail(e, line); err != nil {
			return false, &DamageError{journalName, err.Error()}
		}
		w.head.Journal, w.head.LastLine = lines.at, start
		if w.added >= batchEvents && e.More == 0 {
			return false, nil
		}
	}
}

// addTail adds a line that only the journal has.
func (w *writing) addTail(e *inventory.Event, line []byte) error {
	at, err := orderOf(e)
	if err != nil {
		return err
	}
	if err := checkTime(at, w.head.Last.logical()); err != nil {
		return err
	}
	return w.add(e, line)
}
