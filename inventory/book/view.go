package book

import (
	"bytes"
	"slices"
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
	var state inventory.Entity
	v.look(func() (err error) {
		state, err = v.r.entity(ref)
		return err
	})
	return state
}

// look reads the book between two steps of the caller's code. Damage is kept in err: a
// caller that catches panics of his own must not take it for one of his.
func (v *view) look(read func() error) {
	if v.err != nil {
		return
	}
	v.r.calling = false
	v.err = guarded(func() bool { return v.r.calling }, func() error {
		if err := v.renew(); err != nil {
			return err
		}
		return read()
	})
	v.r.calling = true
}

// Writer is the book's own writer.
func (v *view) Writer() inventory.Writer { return v.r.head.Writer }

// renew makes what was recorded in the same transaction visible.
func (v *view) renew() error {
	if v.w == nil {
		return nil
	}
	settled, err := v.w.settled()
	if err != nil || settled {
		return err
	}
	return v.w.settle()
}

// Each calls yield with every piece of a kind, in order of number.
func (v *view) Each(kind inventory.Kind, yield func(inventory.Number, inventory.Entity) bool) {
	v.look(func() error { return v.each(kind, yield) })
}

func (v *view) each(kind inventory.Kind, yield func(inventory.Number, inventory.Entity) bool) error {
	refs, err := v.r.refsOfKind(kind)
	if err != nil {
		return err
	}
	for _, ref := range refs {
		state, err := v.r.entity(ref)
		if err != nil {
			return err
		}
		if state != nil && !v.call(yield, ref.Number(), state) {
			return nil
		}
	}
	return nil
}

// refsOfKind lists the numbers of a kind that have a state, in order.
func (r *reading) refsOfKind(kind inventory.Kind) ([]inventory.Ref, error) {
	var refs []inventory.Ref
	prefix := []byte(strconv.Itoa(int(kind)))
	if err := r.intactWith(thingsBucket, prefix); err != nil {
		return nil, err // among damaged keys the way forward can lead back
	}
	cursor := r.buckets[thingsBucket].Cursor()
	for key, _ := cursor.Seek(prefix); bytes.HasPrefix(key, prefix); key, _ = cursor.Seek(after(key)) {
		refs = append(refs, inventory.Ref(key[:max(bytes.IndexAny(key, "\x00\x01"), 0)]))
	}
	for _, one := range r.recents {
		refs = append(refs, one.refs...)
	}
	refs = slices.DeleteFunc(refs, func(ref inventory.Ref) bool { return ref.Number().Kind() != kind })
	slices.Sort(refs)
	return slices.Compact(refs), nil
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
