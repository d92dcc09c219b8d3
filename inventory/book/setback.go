package book

import (
	"bytes"
	"fmt"
	"maps"
	"path/filepath"

	"steeltally/inventory"
)

// Setback is what a folder lacks that was put back to an older copy.
type Setback struct {
	Writer  inventory.Writer      `json:"writer"`
	From    uint64                `json:"from"` // the first event that is not here, or is another
	Until   uint64                `json:"until"`
	Numbers map[inventory.Ref]int `json:"numbers,omitempty"` // the highest that each counter gave
}

// Setback tells what the folder lacked when it was found put back, and whether it lacks
// it still; nil where it never was. A book that is only read finds it anew, as nobody has
// noted it yet.
func (b *Book) Setback() (back *Setback, open bool, err error) {
	if b.options.ReadOnly {
		if back, err = b.setbackUnnoted(); err != nil {
			return nil, false, err
		}
	}
	err = b.reading(func(r *reading) error {
		if back == nil {
			back = r.head.Back
		}
		if back == nil {
			return nil
		}
		open, err = b.lacks(r, back)
		return err
	})
	return back, open, err
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
	if back, open, err := b.Setback(); err == nil && open {
		return back
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
// what it wrote where all of the one before is here.
func (r *reading) follow(back *Setback, next inventory.Writer, known reach) error {
	back.Numbers = maps.Clone(back.Numbers)
	for ref, highest := range known.Numbers {
		back.Numbers[ref] = max(back.Numbers[ref], highest)
	}
	last, err := r.lastSequence(next)
	if err == nil && back.From > back.Until && last < known.Sequence {
		back.Writer, back.From, back.Until = next, last+1, known.Sequence
	}
	return err
}

// lacks tells whether an event is neither in the record, nor under another key, nor set
// aside here, waiting or put away.
func (b *Book) lacks(r *reading, back *Setback) (bool, error) {
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
