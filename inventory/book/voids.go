package book

import (
	"bytes"

	"steeltally/inventory"
)

// verdict is what is known of an event: which correction voids it, or that none does.
type verdict struct {
	by     order
	voided bool
}

// voidedBy finds the correction that voids the event at a place in the fold order:
// the earliest that comes after it and is not voided itself. Each correction of a
// correction is judged once in a transaction, and the last ones first, so that it takes
// no longer than reading them, however they hang together.
func (r *reading) voidedBy(target order) (*order, error) {
	for open := []order{target}; ; {
		at := open[len(open)-1]
		v, waiting, err := r.judge(at)
		switch {
		case err != nil:
			return nil, err
		case len(waiting) > 0:
			open = append(open, waiting...)
			continue
		case len(open) == 1 && v.voided:
			return &v.by, nil
		case len(open) == 1:
			return nil, nil
		}
		r.verdicts[at] = v
		open = open[:len(open)-1]
	}
}

// judge tells what voids an event where the verdicts on all that may are known; else it
// names those that wait for one. What voids comes later than what it voids, so this
// comes to an end.
func (r *reading) judge(at order) (v verdict, waiting []order, err error) {
	if known, ok := r.verdicts[at]; ok {
		return known, nil, nil
	}
	key := at.packedKey()
	cursor := r.buckets[voidsBucket].Cursor()
	for entry, _ := cursor.Seek(key[:]); bytes.HasPrefix(entry, key[:]); entry, _ = cursor.Next() {
		by, after, err := r.voids(entry, at)
		if err != nil {
			return v, nil, err
		}
		undone, known := r.verdicts[by]
		switch {
		case !after:
		case !known:
			waiting = append(waiting, by)
		case !undone.voided && (!v.voided || v.by.after(by)):
			v = verdict{by, true}
		}
	}
	return v, waiting, r.intactWith(voidsBucket, key[:])
}

// voids reads one entry of the index of voids, and tells whether the correction comes
// after what it voids.
func (r *reading) voids(entry []byte, target order) (by order, after bool, err error) {
	if len(entry) != 2*keyBytes {
		return order{}, false, &DamageError{dbName, "the index of corrections is not as it was written"}
	}
	by, found, err := r.find(packedKey(entry[keyBytes:]))
	return by, err == nil && found && by.after(target), err
}

// noteVoids enters what a correction voids into the index. The targets need not be
// known yet.
func (w *writing) noteVoids(e *inventory.Event, at order) error {
	for _, target := range inventory.Voids(e) {
		key, err := packKey(target)
		if err != nil {
			continue // it can void nothing
		}
		by := at.packedKey()
		if err := w.put(voidsBucket, append(key[:], by[:]...), nil); err != nil {
			return err
		}
		clear(w.verdicts) // others may be void now, or not any more
		w.clocks.counts = nil
	}
	return nil
}
