package book

import (
	"maps"
	"slices"

	"steeltally/inventory"
)

// take folds an event that was just added: most are only kept as recent; what voids
// others, or comes between others, is folded at once.
func (w *writing) take(e *inventory.Event, at order, newest bool) error {
	if newest && len(inventory.Voids(e)) == 0 {
		one := newRecent(e, at)
		w.recents = append(w.recents, one)
		for _, ref := range one.refs {
			w.follow(ref, e)
		}
		return nil
	}
	if err := w.settle(); err != nil {
		return err
	}
	for _, ref := range refsOf(e) {
		w.trails[ref] = append(w.trails[ref], spot(at[:16]))
	}
	w.markStale(e)
	if len(w.stale) == 0 {
		w.stale[inventory.ClubRef] = true // it touches nothing, but must be settled
	}
	return w.spread(e, map[inventory.Key]bool{})
}

// follow brings a state that is at hand up to an event.
func (w *writing) follow(ref inventory.Ref, e *inventory.Event) {
	if w.stale[ref] {
		return
	}
	if state := w.held[ref]; state != nil {
		state.Apply(e)
	}
}

// markStale notes what has to be folded anew.
func (w *writing) markStale(e *inventory.Event) {
	for _, ref := range refsOf(e) {
		w.stale[ref] = true
		delete(w.held, ref)
	}
}

// renew folds anew what is stale, before anything is looked at.
func (w *writing) renew() error {
	if len(w.stale) == 0 {
		return nil
	}
	return w.settle()
}

// settle stores the states and trails up to the last event: then none is recent. The
// states that only grew come before the trails, because one that cannot be read is
// folded from its stored trail and the recent events; those that have to be folded
// anew come after.
func (w *writing) settle() error {
	if err := w.storeTouched(); err != nil {
		return err
	}
	for _, ref := range slices.Sorted(maps.Keys(w.trails)) {
		if err := w.extendTrail(ref, w.trails[ref]); err != nil {
			return err
		}
	}
	for _, ref := range slices.Sorted(maps.Keys(w.stale)) {
		state, err := w.refold(ref)
		if err != nil {
			return err
		}
		if err := w.storeState(ref, state); err != nil {
			return err
		}
	}
	w.head.Folded = w.head.Last
	w.recents = nil
	clear(w.trails)
	clear(w.stale)
	return nil
}

// storeTouched stores what the recent events touch, and lists their trails.
func (w *writing) storeTouched() error {
	touched := map[inventory.Ref]bool{}
	for _, one := range w.recents {
		for _, ref := range one.refs {
			touched[ref] = !w.stale[ref]
			w.trails[ref] = append(w.trails[ref], spot(one.at[:16]))
		}
	}
	for _, ref := range slices.Sorted(maps.Keys(touched)) {
		if !touched[ref] {
			continue
		}
		state, err := w.entity(ref)
		if err != nil {
			return err
		}
		if err := w.storeState(ref, state); err != nil {
			return err
		}
	}
	return nil
}
