package book

import (
	"slices"

	"steeltally/inventory"
)

// The things whose stored states are flagged are listed, because looking for them in
// every state takes ten seconds in a book of a million events.

// noteFlags lists a thing, or takes it off the list, when its state is stored.
func (w *writing) noteFlags(ref inventory.Ref, state inventory.Entity) error {
	key := []byte(ref)
	known, err := w.load(flaggedBucket, key)
	if err != nil {
		return err
	}
	listed := known != nil
	switch flagged := inventory.IsFlagged(state); {
	case flagged && !listed:
		return w.put(flaggedBucket, key, nil)
	case listed && !flagged:
		return w.remove(flaggedBucket, key)
	}
	return nil
}

// MayBeFlagged names every thing that the record may be unsure of: those that are listed,
// and those that recent events touch.
func (v *view) MayBeFlagged() []inventory.Ref {
	var refs []inventory.Ref
	v.look(func() (err error) {
		refs, err = v.r.mayBeFlagged()
		return err
	})
	return refs
}

func (r *reading) mayBeFlagged() ([]inventory.Ref, error) {
	var refs []inventory.Ref
	err := r.buckets[flaggedBucket].ForEach(func(key, stored []byte) error {
		_, err := opened(flaggedBucket, key, stored)
		refs = append(refs, inventory.Ref(key))
		return err
	})
	if err != nil {
		return nil, err
	}
	for _, one := range r.recents {
		refs = append(refs, one.refs...)
	}
	slices.Sort(refs)
	return slices.Compact(refs), r.intact(flaggedBucket, nil, nil)
}
