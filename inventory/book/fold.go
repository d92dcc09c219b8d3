package book

import (
	"encoding/json"
	"fmt"

	quickjson "github.com/go-json-experiment/json"

	"steeltally/inventory"
)

// entity gives the state of a thing, or nil where nothing that counts touches it.
func (r *reading) entity(ref inventory.Ref) (inventory.Entity, error) {
	if held, ok := r.held[ref]; ok {
		return held, nil
	}
	if r.shared == nil {
		return r.entityWith(ref, r.recentsOf(ref))
	}
	state := r.shared.state(r.head.Events, ref)
	if state == nil {
		var err error
		if state, err = r.entityWith(ref, r.recentsOf(ref)); err != nil || state == nil {
			return nil, err
		}
		r.shared.keep(r.head.Events, ref, state)
	}
	return state, nil
}

// entityWith is entity where the recent events that touch the thing are at hand.
func (r *reading) entityWith(ref inventory.Ref, recents []recent) (inventory.Entity, error) {
	if held, ok := r.held[ref]; ok {
		return held, nil
	}
	state, err := r.storedState(ref)
	if err != nil {
		return nil, err
	}
	for _, one := range recents {
		if one.voided {
			continue
		}
		if state == nil {
			state = inventory.NewEntity(ref)
		}
		if state == nil {
			return nil, nil // a thing of the future: its trail is kept
		}
		timed, err := r.timed(one.event)
		if err != nil {
			return nil, err
		}
		state.Apply(timed)
	}
	if state != nil && len(r.held) < mostHeld {
		r.held[ref] = state
	}
	return state, nil
}

// mostHeld bounds the memory that decoded states take.
const mostHeld = 1024

// storedState gives the state of a thing before the recent events, or nil.
func (r *reading) storedState(ref inventory.Ref) (inventory.Entity, error) {
	value, err := r.load(thingsBucket, stateKey(ref))
	if err != nil || value == nil {
		return nil, err
	}
	if state := r.unpackState(ref, value); state != nil {
		return state, nil
	}
	return r.refold(ref)
}

// unpackState reads a stored state; nil where this version cannot. Reading states is
// most of what a command does, and this reader takes half of the time of the usual one.
func (r *reading) unpackState(ref inventory.Ref, value []byte) inventory.Entity {
	state := inventory.NewEntity(ref)
	text, err := r.packer.unpack(value)
	if state == nil || err != nil || quickjson.Unmarshal(text, state) != nil {
		return nil
	}
	return state
}

// refold makes the state of a thing anew from all of its stored trail that counts.
func (r *reading) refold(ref inventory.Ref) (inventory.Entity, error) {
	state := inventory.NewEntity(ref)
	if state == nil {
		return nil, nil
	}
	trail, err := r.storedTrail(ref, 0)
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

// countingEventAt reads the event at a spot, at its right time, and tells whether nothing
// voids it.
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
	if err != nil || by != nil {
		return e, false, err
	}
	timed, err := r.timed(e)
	return timed, true, err
}

// storeState stores the state of a thing, or takes it out where nothing counts.
func (w *writing) storeState(ref inventory.Ref, state inventory.Entity) error {
	if err := w.noteFlags(ref, state); err != nil {
		return err
	}
	if state == nil {
		return w.remove(thingsBucket, stateKey(ref))
	}
	text, err := json.Marshal(state)
	if err != nil {
		return fmt.Errorf("the state of %s cannot be written: %w", ref, err)
	}
	value, err := w.packer.pack(text)
	if err != nil {
		return err
	}
	return w.put(thingsBucket, stateKey(ref), value)
}
