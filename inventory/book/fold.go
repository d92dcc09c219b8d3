package book

import (
	"encoding/json"
	"errors"
	"maps"
	"slices"

	"steeltally/inventory"
)

// entity gives the state of a thing, or nil where nothing that counts touches it.
func (r *reading) entity(ref inventory.Ref) (inventory.Entity, error) {
	if held, ok := r.held[ref]; ok {
		return held, nil
	}
	value, err := r.load(thingsBucket, stateKey(ref))
	if err != nil || value == nil {
		return nil, err
	}
	state := inventory.NewEntity(ref)
	if state == nil {
		return nil, nil
	}
	if json.Unmarshal(value, state) != nil {
		if state, err = r.refold(ref); err != nil || state == nil {
			return nil, err
		}
	}
	r.held[ref] = state
	return state, nil
}

// refold makes the state of a thing anew from all of its events that count.
func (r *reading) refold(ref inventory.Ref) (inventory.Entity, error) {
	state := inventory.NewEntity(ref)
	if state == nil {
		return nil, nil
	}
	trail, err := r.trail(ref, 0)
	if err != nil {
		return nil, err
	}
	applied := false
	for _, s := range trail {
		e, counts, err := r.countingEventAt(s)
		if err != nil {
			return nil, err
		}
		if counts {
			state.Apply(e)
			applied = true
		}
	}
	if !applied {
		return nil, nil
	}
	return state, nil
}

// countingEventAt reads the event at a spot and tells whether nothing voids it.
func (r *reading) countingEventAt(s spot) (*inventory.Event, bool, error) {
	e, err := r.eventAt(s)
	if err != nil {
		return nil, false, err
	}
	at, err := orderOf(e)
	if err != nil {
		return nil, false, err
	}
	by, err := r.voidedBy(at)
	return e, by == nil, err
}

// refsOf names what an event touches, each once, in order.
func refsOf(e *inventory.Event) []inventory.Ref {
	refs := slices.Clone(e.Body.Touches())
	slices.Sort(refs)
	return slices.DeleteFunc(slices.Compact(refs), func(r inventory.Ref) bool {
		return len(r) == 0 || len(r) > longestRef
	})
}

// longestRef keeps a ref with its extras inside of what a key can be.
const longestRef = 1 << 10

// fold brings the states up to an event that was just added.
func (w *writing) fold(e *inventory.Event, at order, newest bool) error {
	if !newest {
		w.markStale(e)
		return w.spread(e, map[inventory.Key]bool{})
	}
	for _, ref := range refsOf(e) {
		if w.stale[ref] {
			continue
		}
		if err := w.apply(ref, e); err != nil {
			return err
		}
	}
	return w.spread(e, map[inventory.Key]bool{})
}

func (w *writing) apply(ref inventory.Ref, e *inventory.Event) error {
	state, err := w.reading.entity(ref)
	if err != nil {
		return err
	}
	if state == nil {
		state = inventory.NewEntity(ref)
	}
	if state == nil {
		return nil // a thing of the future: its trail is kept
	}
	state.Apply(e)
	w.held[ref], w.dirty[ref] = state, true
	return nil
}

func (w *writing) markStale(e *inventory.Event) {
	for _, ref := range refsOf(e) {
		w.stale[ref] = true
		delete(w.held, ref)
		delete(w.dirty, ref)
	}
}

// entity gives the state of a thing as the events added so far leave it.
func (w *writing) entity(ref inventory.Ref) (inventory.Entity, error) {
	if w.stale[ref] {
		if err := w.renew(ref); err != nil {
			return nil, err
		}
	}
	return w.reading.entity(ref)
}

// renew refolds a stale thing and stores its state.
func (w *writing) renew(ref inventory.Ref) error {
	if err := w.settleTrail(ref); err != nil {
		return err
	}
	state, err := w.refold(ref)
	if err != nil {
		return err
	}
	delete(w.stale, ref)
	if state == nil {
		return w.remove(thingsBucket, stateKey(ref))
	}
	w.held[ref] = state
	return w.storeState(ref)
}

func (w *writing) storeState(ref inventory.Ref) error {
	value, err := json.Marshal(w.held[ref])
	if err != nil {
		return errors.Join(errors.New("the state of "+string(ref)+" cannot be written"), err)
	}
	delete(w.dirty, ref)
	return w.put(thingsBucket, stateKey(ref), value)
}

// settle stores everything that the events added so far have changed.
func (w *writing) settle() error {
	for _, ref := range slices.Sorted(maps.Keys(w.pending)) {
		if err := w.settleTrail(ref); err != nil {
			return err
		}
	}
	for _, ref := range slices.Sorted(maps.Keys(w.stale)) {
		if err := w.renew(ref); err != nil {
			return err
		}
	}
	for _, ref := range slices.Sorted(maps.Keys(w.dirty)) {
		if err := w.storeState(ref); err != nil {
			return err
		}
	}
	return nil
}
