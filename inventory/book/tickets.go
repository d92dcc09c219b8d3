package book

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"time"

	"steeltally/inventory"
)

// longestTicket is how long a caller's key can be, in bytes.
const longestTicket = 200

func checkTicket(ticket string) error {
	if len(ticket) > longestTicket {
		return fmt.Errorf("a key for an action has at most %d bytes, this one has %d", longestTicket, len(ticket))
	}
	return inventory.CheckText(ticket)
}

// noteTicket remembers the action that a caller's key stands for: of several the
// first in fold order.
func (w *writing) noteTicket(e *inventory.Event, at order) error {
	if e.Ticket == "" || len(e.Ticket) > longestTicket {
		return nil
	}
	key := []byte(e.Ticket)
	known, err := w.load(ticketsBucket, key)
	if err != nil {
		return err
	}
	if earlier, ok := parseOrder(known); ok && at.after(earlier) {
		return nil
	}
	return w.put(ticketsBucket, key, at[:])
}

// actionOf finds the events that an action with a ticket recorded; none where the
// ticket is new.
func (r *reading) actionOf(ticket string) ([]inventory.Event, error) {
	if ticket == "" {
		return nil, nil
	}
	value, err := r.load(ticketsBucket, []byte(ticket))
	if err != nil || value == nil {
		return nil, err
	}
	at, ok := parseOrder(value)
	if !ok {
		return nil, &DamageError{dbName, "the index of keys of actions is not as it was written"}
	}
	return r.actionAt(at)
}

// actionAt reads the events of an action from one on, as far as they are here.
func (r *reading) actionAt(at order) ([]inventory.Event, error) {
	var events []inventory.Event
	for found := true; found; {
		e, err := r.event(at)
		if err != nil {
			return nil, err
		}
		if last := len(events) - 1; last >= 0 && events[last].More != e.More+1 {
			return events, nil // lost, or of no program
		}
		events = append(events, *e)
		if e.More == 0 {
			return events, nil
		}
		next, err := packKey(inventory.Key{Writer: e.Writer, Sequence: e.Sequence + 1})
		if err != nil {
			return events, err
		}
		if at, found, err = r.find(next); err != nil {
			return nil, err
		}
	}
	return events, nil
}

// eventOf reads the event with a key that must be there.
func (r *reading) eventOf(key inventory.Key) (*inventory.Event, error) {
	packed, err := packKey(key)
	if err != nil {
		return nil, &UnknownEventError{key.String()}
	}
	at, found, err := r.find(packed)
	if err != nil {
		return nil, err
	}
	if !found {
		return nil, &UnknownEventError{key.String()}
	}
	return r.event(at)
}

// Known gives what the action with a caller's key recorded; none where the key is new.
func (b *Book) Known(ticket string) ([]inventory.Event, error) {
	var events []inventory.Event
	err := b.reading(func(r *reading) (err error) {
		events, err = r.actionOf(ticket)
		return err
	})
	return events, err
}

// TicketError says that a caller's key was given with another action before. Nothing was
// recorded.
type TicketError struct {
	Ticket   string
	Recorded []inventory.Event // what was recorded with it
}

func (e *TicketError) Error() string {
	return fmt.Sprintf("key %q was given with another action before, which recorded entry %v", e.Ticket, e.Recorded[0].Key)
}

// checkSame tells whether an action that was asked for in other words, or of which the
// words are not known, comes to what was recorded with its ticket.
func (w *writing) checkSame(stamp Stamp, earlier []inventory.Event, decide Decide) error {
	another := &TicketError{stamp.Ticket, earlier}
	drafts, err := w.decide(decide)
	drafts = slices.DeleteFunc(drafts, func(d inventory.Draft) bool { return isDoubt(d.Body) })
	earlier = slices.DeleteFunc(slices.Clone(earlier), func(e inventory.Event) bool { return isDoubt(e.Body) })
	if err != nil || len(drafts) != len(earlier) {
		return another
	}
	for i := range drafts {
		if !sameEntry(&drafts[i], stamp.Noted, &earlier[i]) {
			return another
		}
	}
	return nil
}

// isDoubt tells whether a body is about the clock by which the others are dated.
func isDoubt(body inventory.Body) bool {
	_, ok := body.(*inventory.ClockDoubted)
	return ok
}

// sameEntry tells whether a draft says what an event says: the same body, about the same
// time, where now is as good as the time at which the event was noted.
func sameEntry(draft *inventory.Draft, now time.Time, e *inventory.Event) bool {
	is, err := json.Marshal(draft.Body)
	was, wasErr := json.Marshal(e.Body)
	then := draft.Happened == e.Happened || draft.Happened == inventory.At(now) && e.Happened == inventory.At(e.Noted)
	return errors.Join(err, wasErr) == nil && draft.Body.Kind() == e.Body.Kind() && bytes.Equal(is, was) && then
}
