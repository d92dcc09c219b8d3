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
	report *Rebuilt
}

func (l *loader) all() error {
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

// batch loads the next few thousand lines.
func (l *loader) batch(w *writing) error {
	for ; l.next < len(l.from.found) && w.roomInBatch(); l.next++ {
		line, err := l.from.line(l.from.found[l.next])
		if err != nil {
			return err
		}
		if err := l.take(w, line); err != nil {
			return err
		}
	}
	return l.aside.write()
}

func (l *loader) take(w *writing, line []byte) error {
	if l.gate == nil {
		l.gate, l.aside = newGate(w.reading), l.book.asides()
	}
	at := l.from.found[l.next].at
	refused, err := refusalOf(l.admit(w, at, line))
	if err != nil {
		return err
	}
	if refused != "" {
		l.report.SetAside++
		return l.aside.add(refused, line)
	}
	if err := errors.Join(w.allowGap(at), w.place(at)); err != nil {
		return err
	}
	w.addLine(line)
	return w.enter(at, line)
}

// admit tells why an event can't be in the new book, or nothing.
func (l *loader) admit(w *writing, at order, line []byte) error {
	if err := w.checkFree(at); err != nil {
		return err
	}
	e, err := decodeLine(line)
	if err != nil {
		return err
	}
	if err := checkHeld([]*inventory.Event{e}); err != nil {
		return err
	}
	return l.gate.admit(w.reading, at)
}
