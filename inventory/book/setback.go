package book

import (
	"bytes"
	"fmt"
	"path/filepath"
	"slices"

	"steeltally/inventory"
)

// Stretch is what one writer wrote and a folder lacks.
type Stretch struct {
	Writer inventory.Writer `json:"writer"`
	From   uint64           `json:"from"` // the first event that is not here, or is another
	Until  uint64           `json:"until"`
}

// Setback is what a folder lacks that was put back to an older copy: of the writer that is
// in that copy, and of those that had gone on after it, or had been put back before.
type Setback struct {
	Stretch
	Also    []Stretch             `json:"also,omitempty"`
	Numbers map[inventory.Ref]int `json:"numbers,omitempty"` // the highest that each counter gave
}

// Setback tells what the folder lacked when it was found put back, and what of it it lacks
// still; nil where it never was. A book that is only read finds it anew, as nobody has
// noted it yet.
func (b *Book) Setback() (back *Setback, open []Stretch, err error) {
	if b.options.ReadOnly {
		if back, err = b.setbackUnnoted(); err != nil {
			return nil, nil, err
		}
	}
	err = b.reading(func(r *reading) error {
		if back == nil {
			back = r.head.Back
		} else {
			back.keep(r.head.Back.All(), r.head.Back.numbers())
		}
		open, err = b.lacking(r, back.All())
		return err
	})
	return back, open, err
}

// All are all stretches of a setback; none where there is none.
func (s *Setback) All() []Stretch {
	if s == nil {
		return nil
	}
	return append([]Stretch{s.Stretch}, s.Also...)
}

func (s *Setback) numbers() map[inventory.Ref]int {
	if s == nil {
		return nil
	}
	return s.Numbers
}

// keep adds what else is lacking, and the numbers that were given there.
func (s *Setback) keep(more []Stretch, numbers map[inventory.Ref]int) {
	for _, one := range more {
		if !slices.Contains(s.All(), one) {
			s.Also = append(s.Also, one)
		}
	}
	if len(numbers) > 0 && s.Numbers == nil {
		s.Numbers = map[inventory.Ref]int{}
	}
	for ref, highest := range numbers {
		s.Numbers[ref] = max(s.Numbers[ref], highest)
	}
}

func (b *Book) setbackUnnoted() (*Setback, error) {
	mark, err := machineMark(b.dir)
	if err != nil {
		return nil, err
	}
	at, err := b.headNow()
	if err != nil {
		return nil, err
	}
	return b.findSetback(at, mark)
}

// PutBack tells what a folder lacks that was put back to an older copy, without writing
// anything; nil where it lacks nothing, or that can't be told before the book is written in.
func PutBack(dir string, options Options) *Setback {
	options.ReadOnly = true
	b, err := openOnce(dir, options)
	if err != nil {
		return nil
	}
	defer b.Close()
	if _, open, err := b.Setback(); err == nil && len(open) > 0 {
		return &Setback{Stretch: open[0], Also: open[1:]}
	}
	return nil
}

// OwnLast is the last event of the book's own writer; nil where it wrote none yet.
func (b *Book) OwnLast() (last *inventory.Event, err error) {
	err = b.reading(func(r *reading) error {
		sequence, err := r.lastSequence(r.head.Writer)
		if err != nil || sequence == 0 {
			return err
		}
		last, err = r.eventOf(inventory.Key{Writer: r.head.Writer, Sequence: sequence})
		return err
	})
	return last, err
}

// follow takes account of a writer that had gone on in the folder: of its numbers, and of
// what it wrote.
func (r *reading) follow(back *Setback, next inventory.Writer, known reach) error {
	last, err := r.lastSequence(next)
	if err != nil {
		return err
	}
	var lacks []Stretch
	if last < known.Sequence {
		lacks = []Stretch{{next, last + 1, known.Sequence}}
	}
	back.keep(lacks, known.Numbers)
	return nil
}

// lacking are those of which an event is neither in the record, nor under another key, nor
// set aside here, waiting or put away.
func (b *Book) lacking(r *reading, all []Stretch) (open []Stretch, err error) {
	for _, one := range all {
		lacks, err := b.lacks(r, one)
		if err != nil {
			return nil, err
		}
		if lacks {
			open = append(open, one)
		}
	}
	return open, nil
}

func (b *Book) lacks(r *reading, back Stretch) (bool, error) {
	last, err := r.lastSequence(back.Writer)
	if err != nil || last >= back.Until {
		return false, err
	}
	aside, err := b.asideOf(back.Writer)
	if err != nil {
		return false, err
	}
	for sequence := back.From; sequence <= back.Until; sequence++ {
		key := inventory.Key{Writer: back.Writer, Sequence: sequence}
		packed, err := packKey(key)
		if err != nil {
			return false, err
		}
		if _, found, err := r.find(packed); err != nil || found || aside[sequence] {
			if err != nil {
				return false, err
			}
			continue
		}
		taken, err := r.takenUnder(key)
		if err != nil || taken == 0 {
			return err == nil, err
		}
		sequence += uint64(taken) - 1
	}
	return false, nil
}

// asideOf finds what of a writer is in the file beside the record.
func (b *Book) asideOf(writer inventory.Writer) (map[uint64]bool, error) {
	aside := map[uint64]bool{}
	return aside, eachAside(filepath.Join(b.dir, setAsideName), func(line []byte, _ int64) error {
		if _, at, err := captionOf(eventIn(line)); err == nil && at.packedKey().writer() == writer {
			aside[at.packedKey().sequence()] = true
		}
		return nil
	})
}

// takenUnder counts the events of the action that begins with a key and was set aside and
// taken in, here or elsewhere.
func (r *reading) takenUnder(key inventory.Key) (int, error) {
	prefix := fmt.Appendf(nil, "%s%d@%s ", asideTicket, key.Sequence, key.Writer)
	ticket, _ := r.buckets[ticketsBucket].Cursor().Seek(prefix)
	if !bytes.HasPrefix(ticket, prefix) {
		return 0, nil
	}
	taken, err := r.actionOf(string(ticket))
	return len(taken), err
}
