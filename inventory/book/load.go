package book

import (
	"bytes"
	"errors"
	"slices"

	"steeltally/inventory"
)

// enter takes in an event without folding it; foldAll has to follow.
func (w *writing) enter(at order, line []byte) error {
	if err := w.store(at, line); err != nil {
		return err
	}
	w.head.Fold = 0
	if at.after(w.head.Last) {
		w.head.Last = at
	}
	w.head.Folded = w.head.Last
	if err := w.indexWriter(at); err != nil || !mayNote(line) {
		return err
	}
	e, err := decodeLine(line)
	if err != nil {
		return err
	}
	return w.noteOthers(e, at)
}

// mayNote tells whether a line can have a ticket or void something. Most cannot, and
// need not be decoded before they are folded.
func mayNote(line []byte) bool {
	return bytes.Contains(line, []byte(`"ticket"`)) || bytes.Contains(line, []byte(`"voids"`)) || bytes.Contains(line, []byte(`\u`))
}

// allowGap notes that the events between a writer's last and one that follows are lost.
func (w *writing) allowGap(at order) error {
	key := at.packedKey()
	last, err := w.lastSequence(key.writer())
	if err == nil && key.sequence() > last+1 {
		w.head.Gaps = append(slices.Clone(w.head.Gaps), gap{key.writerID(), span{last + 1, key.sequence() - 1}})
	}
	return err
}

// Rebuilt is what a rebuild brought back.
type Rebuilt struct {
	Events   uint64   `json:"events"`
	Lost     []string `json:"lost"`      // stretches of events that are nowhere intact
	SetAside int      `json:"set_aside"` // lines that contradict others, see set-aside.jsonl
	BadLines int      `json:"bad_lines"` // lines of the journal that are not as they were written
}

// loader loads what a salvage found into a new book.
type loader struct {
	book   *Book
	from   *salvage
	next   int
	gate   *gate
	aside  *asides
	apart  apart
	report *Rebuilt
}

func (l *loader) all() error {
	l.aside = l.book.asides()
	if err := l.apart.read(l.aside.path); err != nil {
		return err
	}
	l.apart.noteTwice(l.from.found)
	keepActions(l.from.found)
	for l.next < len(l.from.found) {
		if err := l.book.changing(l.batch); err != nil {
			return err
		}
		l.book.tell("read", l.next, len(l.from.found))
	}
	if err := l.book.foldAll(); err != nil {
		return err
	}
	at, err := l.book.headNow()
	if err != nil {
		return err
	}
	if l.report.Events = at.Events; at.Events == 0 {
		return ErrNothingIntact
	}
	for _, g := range at.Gaps {
		l.report.Lost = append(l.report.Lost, g.String())
	}
	return nil
}

// batch loads the next few thousand lines, in whole actions.
func (l *loader) batch(w *writing) error {
	if l.gate == nil {
		l.gate = newGate(w.reading)
	}
	for l.next < len(l.from.found) && w.roomInBatch() {
		action := l.from.found[l.next : l.next+actionLength(l.from.found[l.next:])]
		if err := l.take(w, action); err != nil {
			return err
		}
		l.next += len(action)
	}
	return l.aside.write()
}

// take enters what of an action can be in the new book, and keeps the rest beside it.
func (l *loader) take(w *writing, action []intact) error {
	var places []order
	var lines [][]byte
	var events []*inventory.Event
	for _, one := range action {
		line, err := l.from.line(one)
		if err != nil {
			return err
		}
		e, err := l.admit(w, one.at, line)
		refused, err := refusalOf(err)
		switch {
		case err != nil:
			return err
		case refused != "":
			err = l.keepAside(one.at, refused, line)
		default:
			places, lines, events = append(places, one.at), append(lines, line), append(events, e)
		}
		if err != nil {
			return err
		}
	}
	refused := l.apart.admit(events)
	for i, at := range places {
		var err error
		if refused != nil {
			err = l.keepAside(at, refused.Error(), lines[i])
		} else {
			err = l.enter(w, at, lines[i])
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// admit reads an event that can come at its place in the new book.
func (l *loader) admit(w *writing, at order, line []byte) (*inventory.Event, error) {
	if err := w.checkFree(at); err != nil {
		return nil, err
	}
	if err := l.gate.admit(w.reading, at); err != nil {
		return nil, err
	}
	return decodeLine(line)
}

func (l *loader) enter(w *writing, at order, line []byte) error {
	if err := errors.Join(w.allowGap(at), w.place(at)); err != nil {
		return err
	}
	l.apart.same(at.packedKey())
	w.addLine(line)
	return w.enter(at, line)
}

func (l *loader) keepAside(at order, reason string, line []byte) error {
	l.apart.note(at.packedKey())
	waits, err := l.aside.keep(reason, line)
	if waits {
		l.report.SetAside++
	}
	return err
}
