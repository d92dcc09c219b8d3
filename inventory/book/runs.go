package book

import (
	"bytes"
	"encoding/binary"

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
