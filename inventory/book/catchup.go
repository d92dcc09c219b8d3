package book

import (
	"bytes"
	"errors"
	"fmt"

	"steeltally/inventory"
)

// errNeedsWriter says that a book opened for reading has to be finished first.
var errNeedsWriter = errors.New("the book has to be brought up first")

// catchUp holds the two files against each other and finishes what a crash left.
// metasGood tells whether both meta pages of book.db are as they were written; where
// one is not, its last transaction may be gone, and the journal must have it.
func (b *Book) catchUp(metasGood bool) error {
	at, err := b.headNow()
	if err != nil {
		return err
	}
	if err := b.checkJoint(at); err != nil {
		return err
	}
	behind, err := b.journal.scanTail(at.Journal)
	if err != nil {
		return err
	}
	if !metasGood && (behind.torn || behind.end == at.Journal) {
		return &DamageError{dbName, "one of its two first pages is lost, and the journal does not have what was last in there"}
	}
	if b.options.ReadOnly {
		if b.journal.size != at.Journal || at.Fold != inventory.FoldVersion {
			return errNeedsWriter
		}
		return nil
	}
	return b.finish(at, behind)
}

func (b *Book) finish(at head, behind tail) error {
	if behind.torn {
		if err := b.journal.cut(behind.end); err != nil {
			return err
		}
	}
	if behind.end > at.Journal {
		if err := b.takeIn(at.Journal); err != nil {
			return err
		}
	}
	if at.Fold != inventory.FoldVersion {
		if err := b.refoldAll(); err != nil {
			return err
		}
	}
	if b.options.copied {
		return nil
	}
	return b.keepWriter()
}

func (b *Book) headNow() (h head, err error) {
	err = b.readingNow(func(r *reading) error {
		h = r.head
		return nil
	})
	return h, err
}

// checkJoint compares the last line that book.db took from the journal with what the
// journal has there.
func (b *Book) checkJoint(at head) error {
	length := at.Journal - at.LastLine
	switch {
	case b.journal.size < at.Journal:
		return &DamageError{journalName, fmt.Sprintf("its end is missing: %d bytes that %s has", at.Journal-b.journal.size, dbName)}
	case length < 1 || length > longestLine+1:
		return &DamageError{dbName, "it does not say where the journal ends"}
	}
	line := make([]byte, length)
	if _, err := b.journal.file.ReadAt(line, at.LastLine); err != nil {
		return fmt.Errorf("%s cannot be read: %w", journalName, err)
	}
	line, ended := bytes.CutSuffix(line, []byte("\n"))
	_, place, err := captionOf(line)
	if err != nil || !ended {
		return &DamageError{journalName, fmt.Sprintf("its last line is not as it was written: %v", err)}
	}
	return b.readingNow(func(r *reading) error {
		if !bytes.Equal(r.line(place), line) {
			return &DamageError{journalName, "its last line is not what " + dbName + " has"}
		}
		return nil
	})
}

// keepWriter gives the book a new writer where its folder is a copy, or was put back to
// an older one of itself, so that two books never write under one key.
func (b *Book) keepWriter() error {
	p, err := placeOf(b.dir)
	if err != nil {
		return err
	}
	at, err := b.headNow()
	if err != nil {
		return err
	}
	mark := p.mark()
	back, err := b.findSetback(at, mark)
	if err != nil {
		return err
	}
	switch same := at.Machine == mark || at.Machine == p.markByDevice(); {
	case back != nil || !same:
		err = b.changeWriter(at, mark, back)
	case at.Machine != mark:
		err = b.changingDB(func(w *writing) error {
			w.head.Machine = mark
			return nil
		})
	}
	if err != nil {
		return err
	}
	return b.startReach(mark)
}

// changeWriter lets another writer go on in the book. Where it goes on in the old one's
// place, that is kept, so that the old one is known to be no more.
func (b *Book) changeWriter(at head, mark string, back *Setback) error {
	writer, err := newWriter(b.options.Random)
	if err != nil {
		return err
	}
	if known, ok := readReach(b.options.Marks, at.Writer); ok && !b.isCopyOf(known, mark) {
		b.reach.pass(b.options.Marks, at.Writer, writer)
	}
	return b.changingDB(func(w *writing) error {
		w.head.Machine, w.head.Writer = mark, writer
		if back == nil {
			return nil
		}
		open, err := b.lacking(w.reading, w.head.Back.All()) // since it was put back before
		back.keep(open, w.head.Back.numbers())
		w.head.Back = back
		return err
	})
}
