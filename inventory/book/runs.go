package book

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"slices"

	"steeltally/inventory"
)

// A run is a stretch of one writer's events whose logical times count up by one with
// their sequences. Few runs tell where a million events are.
type run struct{ logical, length uint64 }

const runBytes = 16

func (n run) encode() []byte {
	return binary.BigEndian.AppendUint64(binary.BigEndian.AppendUint64(nil, n.logical), n.length)
}

// runAt finds the run that a key is in or that is the last before it.
func (r *reading) runAt(key packedKey) (packedKey, run, bool, error) {
	first, stored, err := r.lastBefore(runsBucket, append(key[:], 0))
	if err != nil || first == nil || !bytes.Equal(first[:writerBytes], key[:writerBytes]) {
		return packedKey{}, run{}, false, err
	}
	value, err := opened(runsBucket, first, stored)
	if err != nil || len(value) != runBytes {
		return packedKey{}, run{}, false, &DamageError{dbName, "the index of the writers is not as it was written"}
	}
	return packedKey(first), run{binary.BigEndian.Uint64(value), binary.BigEndian.Uint64(value[8:])}, true, nil
}

// find tells where in the fold order the event with a key is.
func (r *reading) find(key packedKey) (order, bool, error) {
	first, in, found, err := r.runAt(key)
	into := key.sequence() - first.sequence()
	if err != nil || !found || into >= in.length {
		return order{}, false, err
	}
	var at order
	binary.BigEndian.PutUint64(at[:], in.logical+into)
	copy(at[8:], key[:])
	return at, true, nil
}

// lastSequence is the sequence of a writer's last event here, or 0.
func (r *reading) lastSequence(writer inventory.Writer) (uint64, error) {
	key, err := packKey(inventory.Key{Writer: writer, Sequence: ^uint64(0)})
	if err != nil {
		return 0, err
	}
	first, in, found, err := r.runAt(key)
	if err != nil || !found {
		return 0, err
	}
	return first.sequence() + in.length - 1, nil
}

// extendRun notes where an event is; it must be the next of its writer.
func (w *writing) extendRun(at order) error {
	key := at.packedKey()
	first, in, found, err := w.runAt(key)
	if err != nil {
		return err
	}
	into := key.sequence() - first.sequence()
	if found && into == in.length && in.logical+into == at.logical() {
		in.length++
		return w.put(runsBucket, first[:], in.encode())
	}
	return w.put(runsBucket, key[:], run{at.logical(), 1}.encode())
}

// span is a stretch of one writer's sequences, both ends included.
type span struct {
	From uint64 `json:"from"`
	To   uint64 `json:"to"`
}

// spans are stretches in order that do not touch each other.
type spans []span

// add puts in a sequence; false where it is there already.
func (s *spans) add(n uint64) bool {
	list := *s
	at := len(list)
	for at > 0 && list[at-1].From > n {
		at--
	}
	if at > 0 && n <= list[at-1].To {
		return false
	}
	joinsBefore := at > 0 && list[at-1].To+1 == n
	joinsAfter := at < len(list) && n+1 == list[at].From
	switch {
	case joinsBefore && joinsAfter:
		list[at-1].To = list[at].To
		*s = slices.Delete(list, at, at+1)
	case joinsBefore:
		list[at-1].To = n
	case joinsAfter:
		list[at].From = n
	default:
		*s = slices.Insert(list, at, span{n, n})
	}
	return true
}

// holes are what is missing from 1 up to the last.
func (s spans) holes() spans {
	var missing spans
	next := uint64(1)
	for _, one := range s {
		if one.From > next {
			missing = append(missing, span{next, one.From - 1})
		}
		next = one.To + 1
	}
	return missing
}

// gap is a stretch of a writer's events that are lost for good, and known to be.
type gap struct {
	Writer writerID `json:"writer"`
	span
}

func (g gap) String() string {
	return fmt.Sprintf("events %d to %d of writer %x", g.From, g.To, g.Writer)
}

// gapAt finds the known gap that an event belongs into, or -1.
func (h *head) gapAt(key packedKey) int {
	return slices.IndexFunc(h.Gaps, func(g gap) bool {
		return g.Writer == key.writerID() && g.From <= key.sequence() && key.sequence() <= g.To
	})
}

// fill takes an event out of the gap at an index.
func (h *head) fill(i int, sequence uint64) {
	g := h.Gaps[i]
	var rest []gap
	if g.From < sequence {
		rest = append(rest, gap{g.Writer, span{g.From, sequence - 1}})
	}
	if sequence < g.To {
		rest = append(rest, gap{g.Writer, span{sequence + 1, g.To}})
	}
	h.Gaps = slices.Replace(slices.Clone(h.Gaps), i, i+1, rest...)
}

// gapsOf are the known gaps of one writer.
func (h *head) gapsOf(writer writerID) spans {
	var list spans
	for _, g := range h.Gaps {
		if g.Writer == writer {
			list = append(list, g.span)
		}
	}
	slices.SortFunc(list, func(a, b span) int { return int(a.From) - int(b.From) })
	return list
}
