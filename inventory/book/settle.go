package book

import (
	"maps"
	"slices"

	"steeltally/inventory"
)

// take folds an event that was just added: the newest is kept as recent, one that
// comes between others is folded when the transaction is settled.
func (w *writing) take(e *inventory.Event, at order, newest bool) error {
	if err := w.noteClock(e, at); err != nil {
		return err
	}
	timed, err := w.timed(e)
	if err != nil {
		return err
	}
	if !newest {
		w.outOfOrder = true
		for _, ref := range inventory.TouchedOnce(e) {
			w.trails[ref] = append(w.trails[ref], spot(at[:16]))
		}
		w.markStale(e)
		w.note(e)
		return nil
	}
	one := recent{event: e, at: at, refs: inventory.TouchedOnce(e)}
	w.recents = append(w.recents, one)
	for _, ref := range one.refs {
		w.touched[ref] = true
		if state := w.held[ref]; state != nil && !w.stale[ref] {
			state.Apply(timed)
		}
	}
	w.note(e)
	return nil
}

// note remembers a correction, or that a clock was set right; what it voids, or is about,
// is looked at before states are.
func (w *writing) note(e *inventory.Event) {
	_, isSet := e.Body.(*inventory.ClockSet)
	if isSet || len(inventory.Voids(e)) > 0 {
		w.voiding = append(w.voiding, e)
	}
}

// spread follows what the corrections void that were added since it was done last, and
// what that voids in turn, each event once.
func (w *writing) spread() error {
	if len(w.voiding) > 0 {
		w.recents = slices.Clone(w.recents) // others may look at them
	}
	seen := map[inventory.Key]bool{}
	for ; len(w.voiding) > 0; w.voiding = w.voiding[1:] {
		if err := w.setClock(w.voiding[0]); err != nil {
			return err
		}
		for _, key := range inventory.Voids(w.voiding[0]) {
			if seen[key] {
				continue
			}
			seen[key] = true
			if err := w.spreadTo(key); err != nil {
				return err
			}
		}
	}
	return nil
}

// spreadTo takes account of one event that a correction names.
func (w *writing) spreadTo(key inventory.Key) error {
	packed, err := packKey(key)
	if err != nil {
		return nil // there is none
	}
	at, found, err := w.find(packed)
	if err != nil || !found {
		return err
	}
	target, err := w.event(at)
	if err != nil {
		return err
	}
	w.note(target)
	return w.revise(target, at)
}

// revise takes account of an event that counts no longer, or counts again.
func (w *writing) revise(target *inventory.Event, at order) error {
	i := w.recentAt(at)
	if i < 0 || w.outOfOrder {
		w.markStale(target)
		return nil
	}
	by, err := w.voidedBy(at)
	if err != nil {
		return err
	}
	w.recents[i].voided = by != nil
	for _, ref := range w.recents[i].refs {
		w.touched[ref] = true
		delete(w.held, ref)
	}
	return nil
}

// markStale notes what has to be folded anew.
func (w *writing) markStale(e *inventory.Event) {
	for _, ref := range inventory.TouchedOnce(e) {
		w.stale[ref], w.touched[ref] = true, true
		delete(w.held, ref)
	}
}

// settled tells whether what is stored and what is recent make up all states, once it is
// known what is void.
func (w *writing) settled() (bool, error) {
	err := w.spread()
	return !w.outOfOrder && len(w.stale) == 0, err
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
	if err := w.refoldStale(); err != nil {
		return err
	}
	w.head.Folded = w.head.Last
	w.recents, w.outOfOrder = nil, false
	clear(w.trails)
	return nil
}

// refoldStale folds anew what has to be, where all trails are stored.
func (w *writing) refoldStale() error {
	for _, ref := range slices.Sorted(maps.Keys(w.stale)) {
		state, err := w.refold(ref)
		if err != nil {
			return err
		}
		if err := w.storeState(ref, state); err != nil {
			return err
		}
	}
	clear(w.stale)
	return nil
}

// storeTouched stores what the recent events touch, and lists their trails.
func (w *writing) storeTouched() error {
	touched := map[inventory.Ref][]recent{}
	for _, one := range w.recents {
		for _, ref := range one.refs {
			touched[ref] = append(touched[ref], one)
			w.trails[ref] = append(w.trails[ref], spot(one.at[:16]))
		}
	}
	for _, ref := range slices.Sorted(maps.Keys(touched)) {
		if w.stale[ref] {
			continue
		}
		state, err := w.entityWith(ref, touched[ref])
		if err != nil {
			return err
		}
		if err := w.storeState(ref, state); err != nil {
			return err
		}
	}
	return nil
}
