package book

import (
	"bytes"
	"encoding/json"
	"fmt"

	"steeltally/inventory"
)

// apart are keys under which this book and another one may hold different entries: who
// names one of them from there means another entry than who does so here.
type apart struct {
	found   map[inventory.Key]bool // set aside since this merge or rebuild began
	earlier map[inventory.Key]bool // set aside before
}

// namesAnother is why an entry is set aside that names an entry which is apart.
const namesAnother = lineError("it corrects an entry that is another one here, or goes on from it")

// read notes what was set aside by earlier merges, also what was put away since.
func (a *apart) read(path string) error {
	a.found, a.earlier = map[inventory.Key]bool{}, map[inventory.Key]bool{}
	return eachAside(path, func(line []byte, _ int64) error {
		if _, at, err := captionOf(eventIn(line)); err == nil {
			a.earlier[at.packedKey().key()] = true
		}
		return nil
	})
}

// same notes that the other book means by a key what this one means.
func (a *apart) same(key packedKey) {
	if len(a.earlier) > 0 {
		delete(a.earlier, key.key())
	}
}

// note notes a key whose entry is set aside.
func (a *apart) note(key packedKey) { a.found[key.key()] = true }

// noteTwice notes keys that are there twice, in lines in fold order.
func (a *apart) noteTwice(found []intact) {
	last := map[writerID]uint64{}
	for _, one := range found {
		key := one.at.packedKey()
		if writer := key.writerID(); key.sequence() > last[writer] {
			last[writer] = key.sequence()
		} else {
			a.note(key)
		}
	}
}

// admit tells why the events of an action can't be in this book, or nothing: what it names
// may be another entry here.
func (a *apart) admit(events []*inventory.Event) error {
	if err := checkHeld(events); err != nil {
		return err
	}
	for _, e := range events {
		if inventory.NamesAny(e.Body, a.found) || inventory.NamesAny(e.Body, a.earlier) {
			return namesAnother
		}
	}
	return nil
}

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
