package book

import (
	"bytes"
	"encoding/json"
	"fmt"

	"steeltally/inventory"
)

// What was set aside at one station and taken in there is in the record under another
// key. Where it meets its original it would count twice, so it stays out: the one that is
// here counts.

// twinOf finds the events that a line's action is the twin of: it was set aside and taken
// in here, or it was taken in elsewhere and its original is here. None where it has none.
func (r *reading) twinOf(key packedKey, sum uint32, line []byte) ([]inventory.Event, error) {
	prefix := []byte(asideTicket)
	if first, _ := r.buckets[ticketsBucket].Cursor().Seek(prefix); bytes.HasPrefix(first, prefix) {
		if taken, err := r.actionOf(ticketFor(key.key(), sum)); err != nil || taken != nil {
			return taken, err
		}
	}
	_, rest, ok := bytes.Cut(line, []byte(`,"ticket":"`+asideTicket))
	if !ok {
		return nil, nil
	}
	text, rest, _ := bytes.Cut(rest, []byte(" "))
	var original inventory.Key
	packed, err := packedKey{}, original.UnmarshalText(text)
	if err == nil {
		packed, err = packKey(original)
	}
	if err != nil {
		return nil, nil // it is none of ours
	}
	at, found, err := r.find(packed)
	if err != nil || !found {
		return nil, err
	}
	is := r.line(at)
	if checkLine(is) != nil || !bytes.HasPrefix(rest, fmt.Appendf(nil, `%08x"`, lineSum(is))) {
		return nil, nil
	}
	return r.actionAt(at)
}

// sameDeed tells whether two events say the same of the same time, whatever keys they name.
func sameDeed(a, b *inventory.Event) bool {
	return a.Body.Kind() == b.Body.Kind() && a.Happened.Compare(b.Happened) == 0 && bytes.Equal(deedOf(a.Body), deedOf(b.Body))
}

func deedOf(body inventory.Body) []byte {
	text, err := json.Marshal(body)
	fresh := inventory.NewBody(body.Kind())
	if err != nil || fresh == nil || json.Unmarshal(text, fresh) != nil {
		return text
	}
	inventory.MapKeys(fresh, func(inventory.Key) inventory.Key { return inventory.Key{} })
	if text, err = json.Marshal(fresh); err != nil {
		return nil
	}
	return text
}
