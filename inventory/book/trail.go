package book

import (
	"bytes"
	"encoding/binary"
	"slices"

	"steeltally/inventory"
)

// The trail of a thing is where in the fold order the events are that touch it. It is
// kept in stretches of a few dozen, each spot a logical time since the one before and
// a writer's index.

// spot is a logical time and a writer as sortable bytes; it names one event.
type spot [16]byte

func newSpot(logical uint64, writer writerID) spot {
	var s spot
	binary.BigEndian.PutUint64(s[:], logical)
	copy(s[8:], writer[:])
	return s
}

func (s spot) logical() uint64 { return binary.BigEndian.Uint64(s[:]) }

func (s spot) writer() writerID { return writerID(s[8:]) }

func (s spot) compare(other spot) int { return bytes.Compare(s[:], other[:]) }

const (
	stateMark    = 0
	trailMark    = 1
	stretchBytes = 240 // of the spots in one stretch
)

func stateKey(ref inventory.Ref) []byte { return append([]byte(ref), stateMark) }

func trailKey(ref inventory.Ref, first spot) []byte {
	return append(append([]byte(ref), trailMark), first[:]...)
}

// spots reads the stretch under a key.
func (r *reading) spots(key, stored []byte) ([]spot, error) {
	value, err := opened(thingsBucket, key, stored)
	if err != nil {
		return nil, err
	}
	lost := &DamageError{dbName, "the trail of a piece is not as it was written"}
	logical := binary.BigEndian.Uint64(key[len(key)-16:])
	var list []spot
	for len(value) > 0 {
		step, n := binary.Uvarint(value)
		index, m := binary.Uvarint(value[max(n, 0):])
		if n <= 0 || m <= 0 || index >= uint64(len(r.head.Writers)) {
			return nil, lost
		}
		value = value[n+m:]
		logical += step
		list = append(list, newSpot(logical, r.head.Writers[index]))
	}
	return list, nil
}

// stretch writes spots down for the key of its first one.
func (r *reading) stretch(list []spot) []byte {
	var value []byte
	before := list[0].logical()
	for _, s := range list {
		value = binary.AppendUvarint(value, s.logical()-before)
		value = binary.AppendUvarint(value, uint64(r.head.writerIndex(s.writer())))
		before = s.logical()
	}
	return value
}

// trail lists the spots of a thing in fold order; most limits it to the last ones,
// where it is above 0.
func (r *reading) trail(ref inventory.Ref, most int) ([]spot, error) {
	all, err := r.storedTrail(ref, most)
	if err != nil {
		return nil, err
	}
	for _, one := range r.recentsOf(ref) {
		all = append(all, spot(one.at[:16]))
	}
	return lastOf(all, most), nil
}

func lastOf(all []spot, most int) []spot {
	if most > 0 && len(all) > most {
		return all[len(all)-most:]
	}
	return all
}

// storedTrail is the trail without the recent events.
func (r *reading) storedTrail(ref inventory.Ref, most int) ([]spot, error) {
	prefix, end := append([]byte(ref), trailMark), append([]byte(ref), trailMark+1)
	cursor := r.buckets[thingsBucket].Cursor()
	var stretches [][]spot
	count := 0
	oldest := prefix
	key, stored := lastBefore(cursor, end)
	for ; isTrailOf(key, prefix) && (most <= 0 || count < most); key, stored = cursor.Prev() {
		list, err := r.spots(key, stored)
		if err != nil {
			return nil, err
		}
		count += len(list)
		stretches = append(stretches, list)
		if oldest = key; count < most || most <= 0 {
			oldest = prefix
		}
	}
	slices.Reverse(stretches)
	return lastOf(slices.Concat(stretches...), most), r.intact(thingsBucket, oldest, end)
}

func isTrailOf(key, prefix []byte) bool {
	return len(key) == len(prefix)+16 && bytes.HasPrefix(key, prefix)
}

// eventAt reads the event at a spot.
func (r *reading) eventAt(s spot) (*inventory.Event, error) {
	key, kept := r.buckets[eventsBucket].Cursor().Seek(s[:])
	if key == nil || !bytes.HasPrefix(key, s[:]) {
		return nil, &DamageError{dbName, "an event that a piece's trail names is lost"}
	}
	return decodeAt(key, unslim(key, kept))
}
