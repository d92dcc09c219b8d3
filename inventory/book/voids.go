package book

import (
	"bytes"

	"steeltally/inventory"
)

// voidedBy finds the correction that voids the event at a place in the fold order:
// the earliest that comes after it and is not voided itself.
func (r *reading) voidedBy(target order) (*order, error) {
	key := target.packedKey()
	cursor := r.buckets[voidsBucket].Cursor()
	var earliest *order
	for entry, _ := cursor.Seek(key[:]); bytes.HasPrefix(entry, key[:]); entry, _ = cursor.Next() {
		by, counts, err := r.voidCounts(entry, target)
		if err != nil {
			return nil, err
		}
		if counts && (earliest == nil || earliest.after(by)) {
			earliest = &by
		}
	}
	return earliest, r.intactWith(voidsBucket, key[:])
}

// voidCounts tells whether one entry of the index of voids holds.
func (r *reading) voidCounts(entry []byte, target order) (order, bool, error) {
	if len(entry) != 2*keyBytes {
		return order{}, false, &DamageError{dbName, "the index of corrections is not as it was written"}
	}
	by, found, err := r.find(packedKey(entry[keyBytes:]))
	if err != nil || !found || !by.after(target) {
		return by, false, err
	}
	undone, err := r.voidedBy(by)
	return by, undone == nil, err
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
	}
	return nil
}
