package book

import (
	"bytes"
	"fmt"

	"go.etcd.io/bbolt"

	"steeltally/inventory"
)

const (
	bookBucket    = "book"
	eventsBucket  = "events"
	runsBucket    = "runs"
	ticketsBucket = "tickets"
	voidsBucket   = "voids"
	thingsBucket  = "things"
	flaggedBucket = "flagged"
)

func bucketNames() []string {
	return []string{bookBucket, eventsBucket, runsBucket, ticketsBucket, voidsBucket, thingsBucket, flaggedBucket}
}

// reading looks at the book as one transaction sees it.
type reading struct {
	tx      *bbolt.Tx
	buckets map[string]*bbolt.Bucket
	head    head
	recents []recent
	held    map[inventory.Ref]inventory.Entity // states that were decoded
	calling bool                               // while code of the caller runs
	packer  *packer
	shared  *shared // nil where states are changed
	proof   *proof  // nil while a book is being made
	// verdicts are those on corrections, as far as they were asked for
	verdicts map[order]verdict
	clocks   clocks
}

func newReading(tx *bbolt.Tx, s *shared) (*reading, error) {
	r := &reading{
		tx: tx, shared: s, buckets: map[string]*bbolt.Bucket{}, held: map[inventory.Ref]inventory.Entity{}, packer: &packer{},
		verdicts: map[order]verdict{},
	}
	if s.file != nil {
		r.proof = newProof(s.file, tx)
	}
	for _, name := range bucketNames() {
		if r.buckets[name] = tx.Bucket([]byte(name)); r.buckets[name] == nil && name != flaggedBucket {
			return nil, &DamageError{dbName, "it is another program's file, or a part of it is lost: " + name}
		}
	}
	value, err := r.load(bookBucket, headKey())
	if err != nil {
		return nil, err
	}
	if value == nil {
		return nil, &DamageError{dbName, "it does not say whose book it is"}
	}
	if r.head, err = s.readHead(value); err != nil {
		return nil, err
	}
	return r, r.findFlagged()
}

// foldOfFlags is the version of the fold since which the flagged things are listed.
const foldOfFlags = 7

// findFlagged makes the list of flagged things where a book is older than that; the
// things are listed when they are folded anew.
func (r *reading) findFlagged() (err error) {
	switch {
	case r.buckets[flaggedBucket] != nil:
	case r.head.Fold >= foldOfFlags:
		return &DamageError{dbName, "a part of it is lost: " + flaggedBucket}
	case r.tx.Writable():
		r.buckets[flaggedBucket], err = r.tx.CreateBucket([]byte(flaggedBucket))
	}
	return err
}

// load gives the value under a key, or nil where there is surely none.
func (r *reading) load(bucket string, key []byte) ([]byte, error) {
	stored := r.buckets[bucket].Get(key)
	if stored == nil {
		return nil, r.absent(bucket, key)
	}
	return opened(bucket, key, stored)
}

// opened unseals what a bucket holds under a key.
func opened(bucket string, key, stored []byte) ([]byte, error) {
	value, ok := unseal(key, stored)
	if !ok {
		return nil, notAsWritten(bucket, key)
	}
	return value, nil
}

func notAsWritten(bucket string, key []byte) error {
	return &DamageError{dbName, fmt.Sprintf("the entry %q in %s is not as it was written", key, bucket)}
}

// lastBefore finds the last key before a limit, and what is stored there.
func (r *reading) lastBefore(bucket string, limit []byte) (key, stored []byte, err error) {
	key, stored = lastBefore(r.buckets[bucket].Cursor(), limit)
	return key, stored, r.intact(bucket, key, limit)
}

func lastBefore(cursor *bbolt.Cursor, limit []byte) (key, stored []byte) {
	if found, _ := cursor.Seek(limit); found == nil {
		return cursor.Last()
	}
	return cursor.Prev()
}

// line gives the line at a place in the fold order, or nil.
func (r *reading) line(at order) []byte {
	return unslim(at[:], r.buckets[eventsBucket].Get(at[:]))
}

// event reads the event at a place in the fold order that must be there.
func (r *reading) event(at order) (*inventory.Event, error) {
	line := r.line(at)
	if line == nil {
		return nil, &DamageError{dbName, fmt.Sprintf("event %v is lost", at.packedKey().key())}
	}
	return decodeAt(at[:], line)
}

// checkAt tells whether a line is the one that belongs to a place in the fold order, without
// decoding it.
func checkAt(at, line []byte) error {
	if _, is, err := captionOf(line); err != nil || !bytes.Equal(is[:], at) {
		return &DamageError{dbName, "an event is not as it was written"}
	}
	return nil
}

// decodeAt reads the line that belongs to a place in the fold order.
func decodeAt(at, line []byte) (*inventory.Event, error) {
	e, err := decodeLine(line)
	if err != nil {
		return nil, &DamageError{dbName, fmt.Sprintf("an event is not as it was written: %v", err)}
	}
	if is, err := orderOf(e); err != nil || !bytes.Equal(is[:], at) {
		return nil, &DamageError{dbName, fmt.Sprintf("event %v is not in its place", e.Key)}
	}
	return e, nil
}
