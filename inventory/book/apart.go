package book

import "steeltally/inventory"

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
