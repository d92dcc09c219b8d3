package book

import (
	"bytes"

	"steeltally/inventory"
)

// Most transactions add one event, and writing the states and trails of all it touches
// would take longer than everything else. So these are stored up to some event only,
// and the few events after it, the recent ones, are folded in when somebody looks.
// Only events that void nothing and come last in fold order can be recent.

// mostRecent is how many recent events there are before they are folded and stored.
const mostRecent = 256

// recent is an event that stored states and trails do not have yet.
type recent struct {
	event *inventory.Event
	at    order
	refs  []inventory.Ref
}

func newRecent(e *inventory.Event, at order) recent { return recent{e, at, refsOf(e)} }

// loadRecents reads the events after those that are folded.
func (r *reading) loadRecents() ([]recent, error) {
	if r.head.Folded == r.head.Last {
		return nil, nil
	}
	var list []recent
	cursor := r.buckets[eventsBucket].Cursor()
	key, kept := cursor.Seek(r.head.Folded[:])
	if bytes.Equal(key, r.head.Folded[:]) {
		key, kept = cursor.Next()
	}
	for ; key != nil; key, kept = cursor.Next() {
		e, err := decodeAt(key, unslim(key, kept))
		if err != nil {
			return nil, err
		}
		list = append(list, newRecent(e, order(key)))
	}
	return list, nil
}

// recentsOf lists the recent events that touch a thing.
func (r *reading) recentsOf(ref inventory.Ref) []recent {
	var list []recent
	for _, one := range r.recents {
		if one.touches(ref) {
			list = append(list, one)
		}
	}
	return list
}

func (one *recent) touches(ref inventory.Ref) bool {
	for _, touched := range one.refs {
		if touched == ref {
			return true
		}
	}
	return false
}

// recentsKept are the recent events of one state of the book, for those who look at
// the same state again.
type recentsKept struct {
	events uint64
	folded order
	list   []recent
}

// recentsFor gives the recent events of the state that a transaction sees.
func (b *Book) recentsFor(r *reading) error {
	kept := b.recents.Load()
	if kept != nil && kept.events == r.head.Events && kept.folded == r.head.Folded {
		r.recents = kept.list
		return nil
	}
	list, err := r.loadRecents()
	if err != nil {
		return err
	}
	r.recents = list
	b.recents.Store(&recentsKept{r.head.Events, r.head.Folded, list})
	return nil
}
