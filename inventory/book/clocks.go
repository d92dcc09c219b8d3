package book

import (
	"time"

	"steeltally/inventory"
)

// Where a clock was set right, every event that it noted counts as noted, and as happened,
// by the right one, wherever it is folded or shown. The line stays as it was written.

// clockSet is an event that sets a clock right, whether or not it counts.
type clockSet struct {
	at   order
	body *inventory.ClockSet
}

// clocks are those of one transaction.
type clocks struct {
	loaded bool
	all    []clockSet
	counts *inventory.ClockSets // of these, where none was voided or came since; else nil
}

// timed is an event with its times by a right clock.
func (r *reading) timed(e *inventory.Event) (*inventory.Event, error) {
	sets, err := r.clockSets()
	if err != nil {
		return nil, err
	}
	return sets.Timed(e), nil
}

func (r *reading) clockSets() (*inventory.ClockSets, error) {
	if r.clocks.counts != nil {
		return r.clocks.counts, nil
	}
	if err := r.loadClocks(); err != nil {
		return nil, err
	}
	sets := &inventory.ClockSets{}
	for _, set := range r.clocks.all {
		by, err := r.voidedBy(set.at)
		if err != nil {
			return nil, err
		}
		if by == nil {
			sets.Add(set.body)
		}
	}
	r.clocks.counts = sets
	return sets, nil
}

func (r *reading) loadClocks() error {
	if r.clocks.loaded {
		return nil
	}
	trail, err := r.trail(inventory.ClockSetsRef, 0)
	if err != nil {
		return err
	}
	r.clocks.loaded = true
	for _, s := range trail {
		e, err := r.eventAt(s)
		if err != nil {
			return err
		}
		at, err := orderOf(e)
		if err != nil {
			return err
		}
		r.clocks.note(e, at)
	}
	return nil
}

func (c *clocks) note(e *inventory.Event, at order) {
	if body, ok := e.Body.(*inventory.ClockSet); ok {
		c.all = append(c.all, clockSet{at, body})
	}
}

// setClock takes account of an event that sets a clock right, or does so no longer: what
// it is about is folded anew. Others are left alone.
func (w *writing) setClock(e *inventory.Event) error {
	body, ok := e.Body.(*inventory.ClockSet)
	if !ok {
		return nil
	}
	w.clocks.counts = nil
	last, err := w.lastSequence(body.Of)
	if err != nil {
		return nil // no writer has such a name
	}
	return body.Each(last, func(sequence uint64) error {
		packed, err := packKey(inventory.Key{Writer: body.Of, Sequence: sequence})
		if err != nil {
			return nil
		}
		at, found, err := w.find(packed)
		if err != nil || !found {
			return err
		}
		target, err := w.event(at)
		if err == nil {
			w.markStale(target)
		}
		return err
	})
}

// LastNoted is when this book's writer noted something last, and when the last event of
// all was noted; by the right clock where one was set right. The first is zero where the
// writer has not written yet.
func (v *view) LastNoted() (own, any time.Time) {
	if v.err != nil {
		return own, any
	}
	v.r.calling = false
	if v.err = v.renew(); v.err == nil {
		own, any, v.err = v.r.lastNoted()
	}
	v.r.calling = true
	return own, any
}

func (r *reading) lastNoted() (own, any time.Time, err error) {
	any, err = r.notedAt(r.head.Last.packedKey().key())
	if err != nil {
		return own, any, err
	}
	last, err := r.lastSequence(r.head.Writer)
	if err == nil && last > 0 {
		own, err = r.notedAt(inventory.Key{Writer: r.head.Writer, Sequence: last})
	}
	return own, any, err
}

func (r *reading) notedAt(key inventory.Key) (time.Time, error) {
	e, err := r.eventOf(key)
	if err != nil {
		return time.Time{}, err
	}
	timed, err := r.timed(e)
	if err != nil {
		return time.Time{}, err
	}
	return timed.Noted, nil
}

// noteClock takes account of an event that was just added and may set a clock right.
func (w *writing) noteClock(e *inventory.Event, at order) error {
	if _, ok := e.Body.(*inventory.ClockSet); !ok {
		return nil
	}
	if err := w.loadClocks(); err != nil {
		return err
	}
	w.clocks.note(e, at)
	w.clocks.counts = nil
	return nil
}
