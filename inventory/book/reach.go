package book

import (
	"encoding/json"
	"errors"
	"fmt"
	"maps"
	"os"
	"path/filepath"

	"steeltally/inventory"
)

// A folder that was put back to an older copy of itself looks like any other. So this
// machine keeps outside of the folder how far each writer of its books has come, in a
// file of its own. It is written after each commit and not synced: a power cut can only
// set it back, and then it notices less.

// reach is how far a writer has come.
type reach struct {
	Sequence uint64                `json:"sequence"`       // of the last event
	Sum      uint32                `json:"sum"`            // of its line
	Numbers  map[inventory.Ref]int `json:"numbers"`        // the highest that each counter gave
	Dir      string                `json:"dir"`            // the folder
	Machine  string                `json:"machine"`        // and its mark
	Next     inventory.Writer      `json:"next,omitempty"` // who went on in the folder
}

// Unmarked is why this machine can't keep how far the book has come; nil where it can.
func (b *Book) Unmarked() error { return b.reach.failed }

// reaching keeps the reach of an open book's writer.
type reaching struct {
	reach
	file   *os.File
	failed error
}

// mostPassed is how many writers that went on in one folder are followed: files that name
// each other in a ring come to an end.
const mostPassed = 10_000

func reachFile(folder string, writer inventory.Writer) string {
	return filepath.Join(folder, string(writer)+".json")
}

// readReach reads how far a writer had come; false where nothing is known of it.
func readReach(folder string, writer inventory.Writer) (known reach, ok bool) {
	if folder == "" {
		return known, false
	}
	f, err := os.Open(reachFile(folder, writer))
	if err != nil {
		return known, false
	}
	defer f.Close()
	return known, json.NewDecoder(f).Decode(&known) == nil && known.Numbers != nil
}

// findSetback tells what a folder lacks that its writer had written; nil where it lacks
// nothing, nothing is known, or the folder is a copy of one that is in its place.
func (b *Book) findSetback(at head, mark string) (back *Setback, err error) {
	known, ok := readReach(b.options.Marks, at.Writer)
	if !ok || b.isCopyOf(known, mark) {
		return nil, nil
	}
	err = b.readingNow(func(r *reading) error {
		last, err := r.lastSequence(at.Writer)
		if err != nil {
			return err
		}
		same, err := r.hasReached(at.Writer, known)
		if err == nil && (!same || known.Next != "") {
			back = &Setback{Stretch: Stretch{at.Writer, min(last, known.Sequence) + 1, known.Sequence}, Numbers: known.Numbers}
		}
		return err
	})
	for passed, next := 0, known.Next; back != nil && err == nil && next != "" && passed < mostPassed; passed, next = passed+1, known.Next {
		if known, ok = readReach(b.options.Marks, next); !ok {
			break
		}
		err = b.readingNow(func(r *reading) error { return r.follow(back, next, known) })
	}
	return back, err
}

// isCopyOf tells whether a folder is another than the one that is known, which is still
// where it was.
func (b *Book) isCopyOf(known reach, mark string) bool {
	if known.Machine == mark || known.Dir == b.absolute() {
		return false
	}
	there, err := machineMark(known.Dir)
	return err == nil && there == known.Machine
}

func (b *Book) absolute() string {
	dir, err := filepath.Abs(b.dir)
	if err != nil {
		return b.dir
	}
	return dir
}

// hasReached tells whether a writer's last known event is here, and the same.
func (r *reading) hasReached(writer inventory.Writer, known reach) (bool, error) {
	if known.Sequence == 0 {
		return true, nil
	}
	key, err := packKey(inventory.Key{Writer: writer, Sequence: known.Sequence})
	if err != nil {
		return false, err
	}
	at, found, err := r.find(key)
	if err != nil || !found {
		return false, err
	}
	line := r.line(at)
	if err := checkLine(line); err != nil {
		return false, &DamageError{dbName, fmt.Sprintf("event %v is not as it was written: %v", key.key(), err)}
	}
	return lineSum(line) == known.Sum, nil
}

// startReach begins to keep how far the book's writer has come. What stands in the way
// never stops the work.
func (b *Book) startReach(mark string) error {
	if b.options.Marks == "" {
		return nil
	}
	var is reach
	var writer inventory.Writer
	err := b.readingNow(func(r *reading) (err error) {
		writer = r.head.Writer
		is, err = r.reachNow(b.options.Marks)
		return err
	})
	if err != nil {
		return err
	}
	is.Dir, is.Machine = b.absolute(), mark
	b.reach = reaching{reach: is, failed: errors.Join(b.reach.close(), os.MkdirAll(b.options.Marks, 0o700))}
	if b.reach.failed == nil {
		b.reach.file, b.reach.failed = os.OpenFile(reachFile(b.options.Marks, writer), os.O_RDWR|os.O_CREATE, 0o600)
	}
	b.reach.write()
	return nil
}

// reachNow is how far the book's writer has come: what is known of it, where that is up
// to date.
func (r *reading) reachNow(folder string) (reach, error) {
	last, err := r.lastSequence(r.head.Writer)
	if err != nil {
		return reach{}, err
	}
	known, ok := readReach(folder, r.head.Writer)
	if ok && known.Sequence == last && known.Next == "" {
		return known, nil
	}
	is := reach{Sequence: last, Numbers: map[inventory.Ref]int{}}
	maps.Copy(is.Numbers, known.Numbers)
	return is, r.measureReach(&is)
}

// measureReach finds the last line of the book's writer, and the highest numbers.
func (r *reading) measureReach(is *reach) error {
	if is.Sequence > 0 {
		e, err := r.eventOf(inventory.Key{Writer: r.head.Writer, Sequence: is.Sequence})
		if err != nil {
			return err
		}
		at, err := orderOf(e)
		if err != nil {
			return err
		}
		is.Sum = lineSum(r.line(at))
	}
	for _, ref := range inventory.Counters() {
		state, err := r.entity(ref)
		if err != nil {
			return err
		}
		if given, ok := state.(*inventory.Given); ok && given.Highest > 0 {
			is.Numbers[ref] = max(is.Numbers[ref], given.Highest)
		}
	}
	return nil
}

// advance notes what was recorded.
func (k *reaching) advance(events []*inventory.Event, sum uint32) {
	if k.file == nil || len(events) == 0 {
		return
	}
	k.Sequence, k.Sum = events[len(events)-1].Sequence, sum
	for _, e := range events {
		for _, ref := range inventory.TouchedOnce(e) {
			if given, ok := inventory.NewEntity(ref).(*inventory.Given); ok {
				given.Apply(e)
				k.Numbers[ref] = max(k.Numbers[ref], given.Highest)
			}
		}
	}
	k.write()
}

// write writes the reach over what was there: what a longer one left after it is not read.
func (k *reaching) write() {
	if k.file == nil || k.failed != nil {
		return
	}
	text, err := json.Marshal(k.reach)
	if err == nil {
		_, err = k.file.WriteAt(append(text, '\n'), 0)
	}
	k.failed = err
}

// pass says that another writer went on in the folder, after all that are known to have
// gone on there after one.
func (k *reaching) pass(folder string, from, to inventory.Writer) {
	known, ok := readReach(folder, from)
	for passed := 0; ok && known.Next != "" && passed < mostPassed; passed++ {
		next, more := readReach(folder, known.Next)
		if !more {
			break
		}
		from, known = known.Next, next
	}
	f, err := os.OpenFile(reachFile(folder, from), os.O_RDWR, 0o600)
	if !ok || err != nil {
		return
	}
	known.Next = to
	was := reaching{reach: known, file: f}
	was.write()
	k.failed = errors.Join(was.failed, f.Close())
}

func (k *reaching) close() error {
	if k.file == nil {
		return nil
	}
	return k.file.Close()
}
