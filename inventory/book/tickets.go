package book

import (
	"fmt"

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
	key := at.packedKey().key()
	var events []inventory.Event
	for {
		e, err := r.eventOf(key)
		if err != nil {
			return nil, err
		}
		events = append(events, *e)
		if e.More == 0 {
			return events, nil
		}
		key.Sequence++
	}
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
