package book

import (
	"errors"
	"maps"
	"slices"

	"steeltally/inventory"
)

// refoldAll makes everything anew that is computed from the events: this version
// computes it in another way, or many events came between others. A crash amid it
// begins it again at the next opening.
func (b *Book) refoldAll() error {
	if err := b.changingDB((*writing).forget); err != nil {
		return err
	}
	if err := b.inBatches((*writing).noteBatch); err != nil {
		return err
	}
	return b.foldAll()
}

// foldAll makes all states and trails, where there are none yet and the other indexes
// are complete.
func (b *Book) foldAll() error {
	if err := b.inBatches((*writing).foldBatch); err != nil {
		return err
	}
	return b.changingDB(func(w *writing) error {
		w.head.Fold = inventory.FoldVersion
		return nil
	})
}

// foldEvents is how many events are folded in one transaction: more than are taken in,
// because each transaction stores every state that it touches.
const foldEvents = 4 * batchEvents

// inBatches runs something over all events, some thousand in each transaction.
func (b *Book) inBatches(run func(w *writing, from order) (last order, err error)) error {
	var from order
	for done := 0; ; {
		last, all := from, 0
		err := b.changingDB(func(w *writing) (err error) {
			all = int(w.head.Events)
			last, err = run(w, from)
			return err
		})
		if err != nil || last == from {
			return err
		}
		done = min(done+foldEvents, all)
		b.tell("folded", done, all)
		from = last
	}
}

// forget empties what is computed from the events, and says so.
func (w *writing) forget() error {
	return w.empty(thingsBucket, flaggedBucket, voidsBucket, ticketsBucket)
}

// empty empties some buckets.
func (w *writing) empty(names ...string) error {
	w.head.Fold, w.head.Folded = 0, w.head.Last
	w.recents = nil
	w.clocks = clocks{}
	clear(w.held)
	clear(w.verdicts)
	for _, name := range names {
		if err := w.tx.DeleteBucket([]byte(name)); err != nil {
			return err
		}
		fresh, err := w.tx.CreateBucket([]byte(name))
		if err != nil {
			return err
		}
		w.buckets[name] = fresh
		if err := w.proof.renewed(name); err != nil {
			return err
		}
	}
	return w.countOthers()
}

// countOthers makes the tally of everything but the lines anew.
func (w *writing) countOthers() error {
	w.head.Others = 0
	for _, name := range []string{runsBucket, thingsBucket, flaggedBucket, voidsBucket, ticketsBucket} {
		err := w.buckets[name].ForEach(func(key, stored []byte) error {
			w.head.Others += fingerprintOf(name, key, stored)
			return nil
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// batch calls visit with the next events after a place.
func (w *writing) batch(from order, visit func(e *inventory.Event, at order) error) (last order, err error) {
	last = from
	count := 0
	err = w.eachEventAfter(from, func(e *inventory.Event, at order) (bool, error) {
		last = at
		count++
		return count < foldEvents, visit(e, at)
	})
	return last, err
}

// noteBatch enters events into the other indexes, so that it is known which count
// before any is folded.
func (w *writing) noteBatch(from order) (order, error) { return w.batch(from, w.noteOthers) }

// foldBatch folds events into the states and trails.
func (w *writing) foldBatch(from order) (order, error) {
	states := map[inventory.Ref]inventory.Entity{}
	last, err := w.batch(from, func(e *inventory.Event, at order) error { return w.foldInto(states, e, at) })
	if err != nil {
		return from, err
	}
	for _, ref := range slices.Sorted(maps.Keys(w.trails)) {
		if err := w.extendTrail(ref, w.trails[ref]); err != nil {
			return from, err
		}
	}
	for _, ref := range slices.Sorted(maps.Keys(states)) {
		if err := w.storeState(ref, states[ref]); err != nil {
			return from, err
		}
	}
	clear(w.trails)
	return last, w.refoldStale()
}

func (w *writing) foldInto(states map[inventory.Ref]inventory.Entity, e *inventory.Event, at order) error {
	by, err := w.voidedBy(at)
	if err != nil {
		return err
	}
	if by == nil {
		if err := errors.Join(w.noteClock(e, at), w.setClock(e)); err != nil {
			return err
		}
	}
	timed, err := w.timed(e)
	if err != nil {
		return err
	}
	for _, ref := range inventory.TouchedOnce(e) {
		w.trails[ref] = append(w.trails[ref], spot(at[:16]))
		if by != nil {
			continue
		}
		state := states[ref]
		if state == nil {
			if state, err = w.storedState(ref); err != nil {
				return err
			}
		}
		if state == nil {
			state = inventory.NewEntity(ref)
		}
		if state != nil {
			state.Apply(timed)
			states[ref] = state
		}
	}
	return nil
}
