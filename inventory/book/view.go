package book

import (
	"bytes"
	"strconv"

	"steeltally/inventory"
)

// view shows a transaction to the caller's code. What fails is kept in err, and
// nothing is recorded then.
type view struct {
	r   *reading
	w   *writing // nil where nothing can be recorded
	err error
}

// Entity is the state of a thing, or nil.
func (v *view) Entity(ref inventory.Ref) inventory.Entity {
	if v.err != nil {
		return nil
	}
	v.r.calling = false
	var state inventory.Entity
	if v.w != nil {
		state, v.err = v.w.entity(ref)
	} else {
		state, v.err = v.r.entity(ref)
	}
	v.r.calling = true
	return state
}

// Each calls yield with every piece of a kind, in order of number.
func (v *view) Each(kind inventory.Kind, yield func(inventory.Number, inventory.Entity) bool) {
	if v.err != nil {
		return
	}
	v.r.calling = false
	if v.w != nil {
		v.err = v.w.settle()
	}
	if v.err == nil {
		v.err = v.each([]byte(strconv.Itoa(int(kind))), yield)
	}
	v.r.calling = true
}

func (v *view) each(prefix []byte, yield func(inventory.Number, inventory.Entity) bool) error {
	cursor := v.r.buckets[thingsBucket].Cursor()
	for key, _ := cursor.Seek(prefix); bytes.HasPrefix(key, prefix); {
		ref := inventory.Ref(key[:max(bytes.IndexByte(key, stateMark), 0)])
		if number := ref.Number(); number != 0 && key[len(key)-1] == stateMark && len(key) == len(ref)+1 {
			state, err := v.r.entity(ref)
			if err != nil {
				return err
			}
			if state != nil && !v.call(yield, number, state) {
				return nil
			}
		}
		key, _ = cursor.Seek(after(key))
	}
	return nil
}

func (v *view) call(yield func(inventory.Number, inventory.Entity) bool, n inventory.Number, state inventory.Entity) bool {
	v.r.calling = true
	more := yield(n, state)
	v.r.calling = false
	return more
}

// after is a key behind everything that is kept of the thing a key belongs to.
func after(key []byte) []byte {
	if mark := bytes.IndexAny(key, "\x00\x01"); mark >= 0 {
		return append(bytes.Clone(key[:mark]), trailMark+1)
	}
	return append(bytes.Clone(key), 0)
}
