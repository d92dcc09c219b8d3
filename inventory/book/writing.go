package book

import (
	"bytes"
	"fmt"
	"slices"

	"go.etcd.io/bbolt"

	"steeltally/inventory"
)

// writing is one transaction in the making. Nothing of it is on disk before commit.
type writing struct {
	*reading
	trails     map[inventory.Ref][]spot // ends of trails that are not stored yet
	stale      map[inventory.Ref]bool   // things that have to be folded anew
	touched    map[inventory.Ref]bool   // things whose state is another now
	voiding    []*inventory.Event       // corrections that were added and not followed yet
	before     uint64                   // events in the book at first
	outOfOrder bool                     // an event was added that comes between others
	lines      []byte                   // for the journal
	lastLine   int                      // length of the last of these, with its end
	added      int
	own        []*inventory.Event // of these what the book's writer recorded
	ownSum     uint32             // of the last one's line
}

// newWriting begins with what the last one left in memory.
func (b *Book) newWriting(tx *bbolt.Tx) (*writing, error) {
	r, err := newReading(tx, &b.shared)
	if err != nil {
		return nil, err
	}
	if err := b.shared.recentsFor(r); err != nil {
		return nil, err
	}
	r.recents = slices.Clip(r.recents) // others may look at them
	r.shared = nil                     // the states that they look at are never changed
	r.packer = &b.packer
	if b.held != nil {
		r.held, b.held = b.held, nil
	}
	r.buckets[eventsBucket].FillPercent = 1 // most events come at the end
	return &writing{
		reading: r, before: r.head.Events,
		trails: map[inventory.Ref][]spot{}, stale: map[inventory.Ref]bool{}, touched: map[inventory.Ref]bool{},
	}, nil
}

// keep leaves in memory what the next transaction can use. It must be called only
// where everything added is in book.db.
func (b *Book) keep(w *writing) {
	if b.held = w.held; len(b.held) >= mostHeld {
		b.held = nil // full: make room for what is used now
	}
	b.shared.recents.Store(&recentsKept{w.head.Events, w.head.Folded, w.recents})
	if w.head.Fold != inventory.FoldVersion {
		w.before = ^uint64(0) // everything is another
	}
	b.shared.advance(w.before, w.head.Events, w.touched)
}

// put stores a sealed value and keeps the tally.
func (w *writing) put(bucket string, key, value []byte) error {
	b := w.buckets[bucket]
	stored := seal(key, value)
	w.head.Others += fingerprintOf(bucket, key, stored) - fingerprintOf(bucket, key, b.Get(key))
	return b.Put(key, stored)
}

// remove takes out a value and keeps the tally.
func (w *writing) remove(bucket string, key []byte) error {
	b := w.buckets[bucket]
	w.head.Others -= fingerprintOf(bucket, key, b.Get(key))
	return b.Delete(key)
}

// add takes in one event with its line: the next of its writer.
func (w *writing) add(e *inventory.Event, line []byte) error {
	at, err := orderOf(e)
	if err != nil {
		return err
	}
	if err := w.place(at); err != nil {
		return err
	}
	if err := w.store(at, line); err != nil {
		return err
	}
	if err := w.index(e, at); err != nil {
		return err
	}
	newest := at.after(w.head.Last)
	if newest {
		w.head.Last = at
	}
	return w.take(e, at, newest)
}

// gapError says that an event does not follow the last of its writer.
type gapError struct {
	Key  inventory.Key
	Last uint64
}

func (e *gapError) Error() string {
	return fmt.Sprintf("event %v follows event %d of its writer: there is a gap, or it came twice", e.Key, e.Last)
}

// place tells whether an event is the next of its writer, or fills a known gap, or
// follows one.
func (w *writing) place(at order) error {
	key := at.packedKey()
	last, err := w.lastSequence(key.writer())
	if err != nil {
		return err
	}
	between := span{last + 1, key.sequence() - 1}
	gap := w.head.gapAt(key)
	switch {
	case gap >= 0:
		w.head.fill(gap, key.sequence())
	case key.sequence() == last+1:
	case key.sequence() > last && slices.Contains(w.head.gapsOf(key.writerID()), between):
	default:
		return &gapError{key.key(), last}
	}
	return w.checkFree(at)
}

// checkFree tells whether no other event has an event's logical time and writer,
// which name it in the trails.
func (r *reading) checkFree(at order) error {
	free, err := r.isFree(at)
	if err == nil && !free {
		err = lineError(fmt.Sprintf("event %v has the logical time of another of its writer", at.packedKey().key()))
	}
	return err
}

func (r *reading) isFree(at order) (bool, error) {
	found, _ := r.buckets[eventsBucket].Cursor().Seek(at[:16])
	if bytes.HasPrefix(found, at[:16]) {
		return false, nil
	}
	return true, r.intactWith(eventsBucket, at[:16])
}

func (w *writing) store(at order, line []byte) error {
	w.head.Events++
	w.head.Lines += fingerprint(line)
	w.added++
	return w.buckets[eventsBucket].Put(at[:], slim(at, line))
}

// index enters an event into everything but the fold and the trails.
func (w *writing) index(e *inventory.Event, at order) error {
	if err := w.indexWriter(at); err != nil {
		return err
	}
	return w.noteOthers(e, at)
}

// indexWriter enters whose an event is.
func (w *writing) indexWriter(at order) error {
	if writer := at.packedKey().writerID(); w.head.writerIndex(writer) < 0 {
		w.head.Writers = append(slices.Clone(w.head.Writers), writer)
	}
	return w.extendRun(at)
}

// noteOthers enters an event into the other indexes.
func (w *writing) noteOthers(e *inventory.Event, at order) error {
	if err := w.noteTicket(e, at); err != nil {
		return err
	}
	return w.noteVoids(e, at)
}

// extendTrail stores more spots of a thing.
func (w *writing) extendTrail(ref inventory.Ref, fresh []spot) error {
	slices.SortFunc(fresh, spot.compare)
	key, stored, err := w.lastBefore(thingsBucket, append([]byte(ref), trailMark+1))
	if err != nil {
		return err
	}
	if !isTrailOf(key, append([]byte(ref), trailMark)) {
		return w.storeTrail(ref, fresh)
	}
	last, err := w.spots(key, stored)
	if err != nil {
		return err
	}
	if fresh[0].compare(last[len(last)-1]) > 0 {
		return w.storeTrail(ref, append(last, fresh...))
	}
	return w.mergeTrail(ref, fresh)
}

// mergeTrail puts spots between those that are there.
func (w *writing) mergeTrail(ref inventory.Ref, fresh []spot) error {
	old, err := w.storedTrail(ref, 0)
	if err != nil {
		return err
	}
	prefix := append([]byte(ref), trailMark)
	cursor := w.buckets[thingsBucket].Cursor()
	var keys [][]byte
	for key, _ := cursor.Seek(prefix); isTrailOf(key, prefix); key, _ = cursor.Next() {
		keys = append(keys, bytes.Clone(key))
	}
	for _, key := range keys {
		if err := w.remove(thingsBucket, key); err != nil {
			return err
		}
	}
	all := append(old, fresh...)
	slices.SortFunc(all, spot.compare)
	return w.storeTrail(ref, all)
}

// storeTrail writes sorted spots in stretches.
func (w *writing) storeTrail(ref inventory.Ref, list []spot) error {
	for len(list) > 0 {
		count := len(list)
		value := w.stretch(list)
		for len(value) > stretchBytes {
			count = max(1, min(count-1, count*stretchBytes/len(value)))
			value = w.stretch(list[:count])
		}
		if err := w.put(thingsBucket, trailKey(ref, list[0]), value); err != nil {
			return err
		}
		list = list[count:]
	}
	return nil
}

// finish makes the transaction ready to be committed.
func (w *writing) finish() error {
	settled, err := w.settled()
	if err != nil {
		return err
	}
	if !settled || len(w.recents) >= mostRecent {
		if err := w.settle(); err != nil {
			return err
		}
	}
	return w.storeHead()
}

func (w *writing) storeHead() error {
	value, err := w.head.encode()
	if err != nil {
		return err
	}
	return w.buckets[bookBucket].Put(headKey(), seal(headKey(), value))
}
