package deeds

import (
	"encoding/json"
	"math"
	"slices"

	"steeltally/inventory"
)

// after is the record as it will stand once some drafts are recorded, so that one action
// can be made of several deeds. What makes new pieces is no such deed.
type after struct {
	inventory.View
	events []inventory.Event
}

// then decides a deed as if what was decided before it stood already, and adds it.
func (o *Outcome) then(v inventory.View, m Moment, deed Deed) error {
	next, err := deed.Decide(o.after(v), m)
	if err == nil {
		o.add(next)
	}
	return err
}

func (o *Outcome) after(v inventory.View) inventory.View {
	a := after{View: v}
	for i, draft := range o.Drafts {
		last := uint64(math.MaxInt64) + uint64(i) // later than all that is recorded
		a.events = append(a.events, inventory.Event{
			Key: inventory.Key{Writer: v.Writer(), Sequence: last}, Logical: last, Happened: draft.Happened, Body: draft.Body,
		})
	}
	return a
}

// Entity is the state of a thing with the drafts that touch it.
func (a after) Entity(ref inventory.Ref) inventory.Entity {
	state, own := a.View.Entity(ref), false
	for i := range a.events {
		if !slices.Contains(inventory.TouchedOnce(&a.events[i]), ref) {
			continue
		}
		if !own {
			state, own = copyOf(ref, state), true
		}
		if state != nil {
			state.Apply(&a.events[i])
		}
	}
	return state
}

// copyOf is a state that can be changed; states go through JSON without loss.
func copyOf(ref inventory.Ref, state inventory.Entity) inventory.Entity {
	own := inventory.NewEntity(ref)
	if own == nil || state == nil {
		return own
	}
	text, err := json.Marshal(state)
	if err != nil || json.Unmarshal(text, own) != nil {
		return nil // as what is not known, about which nothing is decided
	}
	return own
}
