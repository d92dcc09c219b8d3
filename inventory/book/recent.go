package book

import (
	"bytes"
	"slices"

	"steeltally/inventory"
)

// Most transactions add one event, and writing the states and trails of all it touches
// would take longer than everything else. So these are stored up to some event only,
// and the few events after it, the recent ones, are folded in when somebody looks.
// A recent event comes after all others in fold order, and what voids it is recent too.

// mostRecent is how many recent events there are before they are folded and stored.
const mostRecent = 256

// recent is an event that stored states and trails do not have yet.
type recent struct {
	event  *inventory.Event
	at     order
	refs   []inventory.Ref
	voided bool
}

// loadRecents reads the events after those that are folded.
func (r *reading) loadRecents() ([]recent, error) {
	if r.head.Folded == r.head.Last {
		return nil, nil
	}
	var list []recent
	err := r.eachEventAfter(r.head.Folded, func(e *inventory.Event, at order) (more bool, err error) {
		by, err := r.voidedBy(at)
		list = append(list, recent{e, at, inventory.TouchedOnce(e), by != nil})
		return true, err
	})
	return list, err
}

// eachEventAfter calls visit with the events after a place in the fold order, until
// visit has enough. That none was passed over is known at the end.
func (r *reading) eachEventAfter(place order, visit func(e *inventory.Event, at order) (more bool, err error)) error {
	cursor := r.buckets[eventsBucket].Cursor()
	key, kept := cursor.Seek(place[:])
	if bytes.Equal(key, place[:]) {
		key, kept = cursor.Next()
	}
	more := true
	for ; more && key != nil; key, kept = cursor.Next() {
		e, err := decodeAt(key, unslim(key, kept))
		if err != nil {
			return err
		}
		if more, err = visit(e, order(key)); err != nil {
			return err
		}
	}
	return r.intact(eventsBucket, place[:], key)
}

// recentsOf lists the recent events that touch a thing.
func (r *reading) recentsOf(ref inventory.Ref) []recent {
	var list []recent
	for i := range r.recents {
		if slices.Contains(r.recents[i].refs, ref) {
			list = append(list, r.recents[i])
		}
	}
	return list
}

// recentAt finds the recent event at a place in the fold order, or -1.
func (r *reading) recentAt(at order) int {
	i, found := slices.BinarySearchFunc(r.recents, at, func(one recent, at order) int { return bytes.Compare(one.at[:], at[:]) })
	if !found {
		return -1
	}
	return i
}

// recentsKept are the recent events of one state of the book, for those who look at
// the same state again. They are never changed.
type recentsKept struct {
	events uint64
	folded order
	list   []recent
}

// recentsFor gives the recent events of the state that a transaction sees.
func (s *shared) recentsFor(r *reading) error {
	kept := s.recents.Load()
	if kept != nil && kept.events == r.head.Events && kept.folded == r.head.Folded {
		r.recents = kept.list
		return nil
	}
	list, err := r.loadRecents()
	if err != nil {
		return err
	}
	r.recents = list
	s.recents.Store(&recentsKept{r.head.Events, r.head.Folded, list})
	return nil
}
