package book

import (
	"steeltally/inventory"
)

// Recorder carries out one action within a bulk, as Book.Record does.
type Recorder func(Stamp, Decide) ([]inventory.Event, error)

// Bulk records many actions with few waits for the disk. Every decision sees what the
// ones before it recorded. Only when Bulk returns nil is all of it on disk; after an
// error some of the earlier actions may be, each whole.
func (b *Book) Bulk(run func(Recorder) error) error {
	b.mutex.Lock()
	defer b.mutex.Unlock()
	if err := b.writable(); err != nil {
		return err
	}
	k := &bulk{book: b}
	defer k.drop()
	if err := run(k.record); err != nil {
		return err
	}
	if k.failed != nil {
		return k.failed
	}
	return guarded(neverCalling, k.flush)
}

// bulk gathers actions into transactions.
type bulk struct {
	book   *Book
	w      *writing // nil between two transactions
	failed error
}

func (k *bulk) record(stamp Stamp, decide Decide) (events []inventory.Event, err error) {
	if k.failed != nil {
		return nil, k.failed
	}
	calling := func() bool { return k.w != nil && k.w.calling }
	err = guarded(calling, func() error {
		events, err = k.recordIn(stamp, decide)
		return err
	})
	return events, err
}

func (k *bulk) recordIn(stamp Stamp, decide Decide) ([]inventory.Event, error) {
	if err := k.begin(); err != nil {
		return nil, err
	}
	before := k.w.added
	events, err := k.w.record(stamp, decide)
	if err != nil && k.w.added != before {
		k.failed = err
	}
	if err == nil && k.w.added >= batchEvents {
		err = k.flush()
	}
	if err != nil {
		return nil, err
	}
	return events, nil
}

func (k *bulk) begin() error {
	if k.w != nil {
		return nil
	}
	tx, err := k.book.db.Begin(true)
	if err != nil {
		return err
	}
	w, err := k.book.newWriting(tx)
	if err != nil {
		k.book.discard(tx)
		return err
	}
	k.w = w
	return nil
}

func (k *bulk) flush() error {
	if k.w == nil || k.w.added == 0 {
		return nil
	}
	if k.failed = k.book.commit(k.w); k.failed != nil {
		return k.failed
	}
	k.drop()
	return nil
}

// drop lets go of a transaction in the making.
func (k *bulk) drop() {
	if k.w != nil {
		k.book.discard(k.w.tx)
		k.w = nil
	}
}
