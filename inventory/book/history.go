package book

import (
	"bufio"
	"fmt"
	"io"
	"slices"
	"time"

	"steeltally/inventory"
)

// Entry is an event as the record shows it.
type Entry struct {
	inventory.Event
	VoidedBy *inventory.Key // the correction that voids it, or nil
	Off      time.Duration  // how much later than noted it happened: its clock stood wrong
}

// History gives the events that touch a thing in fold order, the voided ones among
// them; of many the last limit, where it is above 0.
func (b *Book) History(ref inventory.Ref, limit int) ([]Entry, error) {
	var entries []Entry
	err := b.reading(func(r *reading) error {
		trail, err := r.trail(ref, limit)
		if err != nil {
			return err
		}
		for _, s := range trail {
			e, err := r.eventAt(s)
			if err != nil {
				return err
			}
			shown, err := r.entryOf(e)
			if err != nil {
				return err
			}
			entries = append(entries, shown)
		}
		return nil
	})
	return entries, err
}

// Touching tells how many events touch a thing, the voided ones among them.
func (b *Book) Touching(ref inventory.Ref) (int, error) {
	count := 0
	err := b.reading(func(r *reading) error {
		trail, err := r.trail(ref, 0)
		count = len(trail)
		return err
	})
	return count, err
}

func (r *reading) entryOf(e *inventory.Event) (Entry, error) {
	at, err := orderOf(e)
	if err != nil {
		return Entry{}, err
	}
	timed, err := r.timed(e)
	if err != nil {
		return Entry{}, err
	}
	shown := Entry{Event: *timed, Off: timed.Noted.Sub(e.Noted)}
	by, err := r.voidedBy(at)
	if err == nil && by != nil {
		key := by.packedKey().key()
		shown.VoidedBy = &key
	}
	return shown, err
}

// All calls visit with every event in fold order and its line, until visit fails. The
// line must not be kept.
func (b *Book) All(visit func(e inventory.Event, line []byte) error) error {
	return b.reading(func(r *reading) error {
		return r.eachLine(func(at, line []byte) error {
			e, err := decodeAt(at, line)
			if err != nil {
				return err
			}
			r.calling = true
			err = visit(*e, line)
			r.calling = false
			return err
		})
	})
}

// eachLine calls visit with every line in fold order. That none was passed over is
// known at the end.
func (r *reading) eachLine(visit func(at, line []byte) error) error {
	count, sum := uint64(0), tally(0)
	err := r.buckets[eventsBucket].ForEach(func(at, kept []byte) error {
		line := unslim(at, kept)
		count++
		sum += fingerprint(line)
		return visit(at, line)
	})
	if err == nil && (count != r.head.Events || sum != r.head.Lines) {
		err = &DamageError{dbName, fmt.Sprintf("it has %d events that are not the %d that were written", count, r.head.Events)}
	}
	return err
}

// Export writes the whole journal in fold order, its lines byte for byte: the same
// events give the same bytes, however they came together.
func (b *Book) Export(w io.Writer) error {
	return b.reading(func(r *reading) error { return r.export(w) })
}

func (r *reading) export(w io.Writer) error {
	out := bufio.NewWriterSize(w, 1<<16)
	err := r.eachLine(func(at, line []byte) error {
		if err := checkAt(at, line); err != nil {
			return err
		}
		if _, err := out.Write(line); err != nil {
			return err
		}
		return out.WriteByte('\n')
	})
	if err != nil {
		return err
	}
	return out.Flush()
}

// Counts are what a book says of itself.
type Counts struct {
	Writer inventory.Writer
	Events uint64
	Bytes  int64 // of the journal
}

// Counts tells who writes here and how much there is.
func (b *Book) Counts() (Counts, error) {
	var counts Counts
	err := b.reading(func(r *reading) error {
		counts = Counts{r.head.Writer, r.head.Events, r.head.Journal}
		return nil
	})
	return counts, err
}

// Latest gives the last entries of the record in fold order, the newest last.
func (b *Book) Latest(limit int) ([]Entry, error) {
	var entries []Entry
	var oldest []byte
	err := b.reading(func(r *reading) error {
		cursor := r.buckets[eventsBucket].Cursor()
		for at, kept := cursor.Last(); at != nil && len(entries) < limit; at, kept = cursor.Prev() {
			e, err := decodeAt(at, unslim(at, kept))
			if err != nil {
				return err
			}
			shown, err := r.entryOf(e)
			if err != nil {
				return err
			}
			entries = append(entries, shown)
			oldest = at
		}
		slices.Reverse(entries)
		return r.intact(eventsBucket, oldest, nil)
	})
	return entries, err
}
