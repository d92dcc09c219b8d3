package book

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"

	"steeltally/inventory"
)

// What comes from elsewhere passes one gate, whether it is merged or a book is rebuilt
// from it: a line can be as it was written, and yet nobody can have written it so. What
// the gate keeps out is set aside.

// The bounds of what can come from elsewhere.
const (
	// mostAhead is how far a logical time can lie after all that are known. A time is the
	// next after what its writer knew, so it is ahead by what was lost since at most.
	mostAhead = 1 << 20
	// mostGaps and mostFresh keep what is said of the whole book short, since each
	// transaction writes it.
	mostGaps  = 10_000
	mostFresh = 4_096 // writers that come at once
)

// gate looks at lines in fold order.
type gate struct {
	high  uint64                // the latest logical time so far
	last  map[writerID]uint64   // the last sequence of each writer that it let in
	fresh map[writerID]struct{} // writers that it let in first
	gaps  int                   // that it let come up
}

func newGate(r *reading) *gate {
	return &gate{r.head.Last.logical(), map[writerID]uint64{}, map[writerID]struct{}{}, len(r.head.Gaps)}
}

// known notes a line that is here already.
func (g *gate) known(at order) { g.high = max(g.high, at.logical()) }

// admit lets an event into the order, or says why it can't be in it.
func (g *gate) admit(r *reading, at order) error {
	key := at.packedKey()
	if err := checkTime(at, g.high); err != nil {
		return err
	}
	if last := g.last[key.writerID()]; key.sequence() <= last {
		return lineError(fmt.Sprintf("it comes after event %d of its writer", last))
	}
	if err := r.checkBetween(at); err != nil {
		return err
	}
	if err := g.admitWriter(r, key); err != nil {
		return err
	}
	g.known(at)
	g.last[key.writerID()] = key.sequence()
	return nil
}

// checkTime refuses a logical time that no writer can have come to after another: each
// event takes the next one, and the writer's own events are among those before it.
func checkTime(at order, high uint64) error {
	switch sequence := at.packedKey().sequence(); {
	case at.logical() > high+mostAhead:
		return lineError(fmt.Sprintf("its logical time lies %d after all others", at.logical()-high))
	case sequence > at.logical():
		return lineError(fmt.Sprintf("it is its writer's event %d at the logical time %d, when there were not so many", sequence, at.logical()))
	}
	return nil
}

// admitWriter bounds how many writers and gaps come up.
func (g *gate) admitWriter(r *reading, key packedKey) error {
	writer := key.writerID()
	last, err := r.lastSequence(key.writer())
	if err != nil {
		return err
	}
	gaps := g.gaps
	if key.sequence() > max(last, g.last[writer])+1 {
		gaps++
	}
	if _, known := g.fresh[writer]; !known && r.head.writerIndex(writer) < 0 {
		if len(g.fresh) >= mostFresh {
			return lineError(fmt.Sprintf("it is of more than %d writers who are not known", mostFresh))
		}
		g.fresh[writer] = struct{}{}
	}
	if gaps > mostGaps {
		return lineError(fmt.Sprintf("before it another of more than %d stretches of events is missing", mostGaps))
	}
	g.gaps = gaps
	return nil
}

// checkBetween tells whether an event comes after those of its writer that are here and
// have a lower sequence, and before the others.
func (r *reading) checkBetween(at order) error {
	key := at.packedKey()
	first, in, found, err := r.runAt(key)
	if err != nil {
		return err
	}
	if found && in.logical+in.length-1 >= at.logical() {
		return lineError(fmt.Sprintf("it is later than event %d of its writer, and its logical time is not", first.sequence()+in.length-1))
	}
	next, stored := r.buckets[runsBucket].Cursor().Seek(key[:])
	if next == nil || !bytes.Equal(next[:writerBytes], key[:writerBytes]) {
		return nil
	}
	value, err := opened(runsBucket, next, stored)
	if err == nil && binary.BigEndian.Uint64(value) <= at.logical() {
		err = lineError(fmt.Sprintf("it is earlier than event %d of its writer, and its logical time is not", packedKey(next).sequence()))
	}
	return err
}

// checkHeld tells why the events of an action can't be in a book, or nothing.
func checkHeld(events []*inventory.Event) error {
	for _, e := range events {
		if err := e.CheckHeld(); err != nil {
			return lineError(fmt.Sprintf("%d@%.4s can't be: %v", e.Sequence, string(e.Writer), err))
		}
		if err := checkTicket(e.Ticket); err != nil {
			return lineError(err.Error())
		}
	}
	return nil
}

// refusalOf tells what the gate says of a line, apart from what stands in the way of
// looking; nothing where it is let in.
func refusalOf(err error) (string, error) {
	var refused lineError
	if errors.As(err, &refused) {
		return refused.Error(), nil
	}
	return "", err
}
