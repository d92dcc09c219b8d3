package book

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"steeltally/inventory"
)

// Merged is what a merge came to.
type Merged struct {
	Added    int `json:"added"`
	Known    int `json:"known"`     // were here already
	SetAside int `json:"set_aside"` // contradict what is here, see set-aside.jsonl
}

// MergeError says why another book is refused whole. Nothing was taken from it.
type MergeError struct{ From, What string }

func (e *MergeError) Error() string {
	return fmt.Sprintf("%s is not merged: %s; copy it again, or rebuild it first", e.From, e.What)
}

// Merge takes in the events of another book's folder, of a backup, or of a file of
// lines such as export writes. Books come to the same state whatever is merged into
// what, in any order, any number of times. An event whose key is another's here, and
// what its writer wrote after it, is set aside.
func (b *Book) Merge(from, program string) (merged Merged, err error) {
	if err := b.checkOther(from); err != nil {
		return merged, err
	}
	s, release, err := b.openOther(from, program)
	if err != nil {
		return merged, err
	}
	defer func() { err = errors.Join(err, s.close(), release()) }()
	if what := s.broken(); what != "" {
		return merged, &MergeError{from, what}
	}
	b.mutex.Lock()
	defer b.mutex.Unlock()
	m := &merger{book: b, from: s, result: &merged, diverged: map[writerID]bool{}}
	return merged, m.all()
}

// broken says why a file cannot be a whole one, or nothing.
func (s *salvage) broken() string {
	switch {
	case s.badLines > 0:
		return fmt.Sprintf("%d of its lines are not as they were written", s.badLines)
	case s.unended:
		return "its last line has no end"
	case len(s.found) == 0:
		return "there is no event in it"
	}
	return ""
}

// checkOther refuses a book as its own other.
func (b *Book) checkOther(from string) error {
	other, err := os.Stat(from)
	if err != nil {
		return &AbsentError{from, "the path does not exist"}
	}
	own, err := os.Stat(b.dir)
	if err == nil && os.SameFile(own, other) {
		return &MergeError{from, "it is this book itself"}
	}
	return err
}

// openOther reads another book whole before anything is taken from it.
func (b *Book) openOther(from, program string) (*salvage, func() error, error) {
	nothing := func() error { return nil }
	info, err := os.Stat(from)
	if err != nil {
		return nil, nothing, err
	}
	if info.IsDir() {
		return openOtherDir(from, program)
	}
	if !isZip(from) {
		s, err := salvageFile(from)
		return s, nothing, errors.Join(err, s.refuseHoles(from, nil))
	}
	said, err := checkBackup(from)
	if err != nil {
		return nil, nothing, err
	}
	temporary, err := os.MkdirTemp(b.dir, ".merging-")
	if err != nil {
		return nil, nothing, err
	}
	s, err := unpackJournal(from, temporary)
	release := func() error { return os.RemoveAll(temporary) }
	if err == nil {
		err = s.refuseHoles(from, said.Gaps)
	}
	if err != nil {
		return nil, nothing, errors.Join(err, release())
	}
	return s, release, nil
}

func openOtherDir(from, program string) (*salvage, func() error, error) {
	if err := look(from); err != nil {
		return nil, nil, err
	}
	l, err := takeLock(from, program, true)
	if err != nil {
		return nil, nil, err
	}
	r := Report{}
	has, err := r.compare(from)
	if err != nil || len(r.Problems) > 0 || has == nil {
		refused := &MergeError{from, "it is damaged: " + strings.Join(r.Problems, "; ")}
		return nil, nil, errors.Join(refused, err, l.release())
	}
	s := &salvage{}
	s.text, err = os.Open(filepath.Join(from, journalName))
	if err == nil {
		err = s.readText(has.Journal)
	}
	s.sort()
	if err != nil {
		return nil, nil, errors.Join(err, s.close(), l.release())
	}
	s.badLines, s.unended = 0, false // that is the end that was cut off, as verify has seen
	return s, l.release, nil
}

// refuseHoles refuses a file in which events are missing before a writer's last one,
// other than those that are known to be lost.
func (s *salvage) refuseHoles(from string, known []gap) error {
	seen := map[writerID]*spans{}
	for _, one := range s.found {
		writer := one.at.packedKey().writerID()
		if seen[writer] == nil {
			seen[writer] = &spans{}
		}
		seen[writer].add(one.at.packedKey().sequence())
	}
	h := head{Gaps: known}
	for writer, has := range seen {
		if !slices.Equal(has.holes(), h.gapsOf(writer)) {
			return &MergeError{from, fmt.Sprintf("events of writer %x are missing in it", writer)}
		}
	}
	return nil
}

// merger takes in what another book has and this one lacks.
type merger struct {
	book     *Book
	from     *salvage
	result   *Merged
	diverged map[writerID]bool // writers that went on separately
	lacking  []intact
}

func (m *merger) all() error {
	if err := m.book.writable(); err != nil {
		return err
	}
	if err := m.compare(); err != nil {
		return err
	}
	if len(m.lacking) == 0 {
		return nil
	}
	first := m.lacking[0].at
	m.inActions()
	at, err := m.book.headNow()
	if err != nil {
		return err
	}
	if len(m.lacking) > mostInserted && !first.after(at.Last) {
		return m.takeAndRefold()
	}
	return m.takeAll((*writing).add)
}

// mostInserted is up to how many events are folded into what is there; where more
// come, everything is folded anew.
const mostInserted = 2000

// compare finds what this book lacks. The other one's events come in fold order, and
// so in the order of each writer.
func (m *merger) compare() error {
	m.lacking = m.from.found[:0] // what is lacking takes the place of what was found
	return m.book.readingNow(func(r *reading) error {
		for _, one := range m.from.found {
			if err := m.compareOne(r, one); err != nil {
				return err
			}
		}
		return nil
	})
}

func (m *merger) compareOne(r *reading, one intact) error {
	key := one.at.packedKey()
	at, found, err := r.find(key)
	switch {
	case err != nil:
		return err
	case !found && !m.diverged[key.writerID()] && r.checkFree(one.at) == nil:
		m.lacking = append(m.lacking, one)
		return nil
	}
	line, err := m.from.line(one)
	if err != nil {
		return err
	}
	if found && !m.diverged[key.writerID()] && bytes.Equal(line, r.line(at)) {
		m.result.Known++
		return nil
	}
	m.diverged[key.writerID()] = true
	m.result.SetAside++
	return m.book.setAside(fmt.Sprintf("writer %s went on in two copies of the book", key.writer()), line)
}

// inActions keeps the events of an action together, as a journal has them.
func (m *merger) inActions() {
	type open struct {
		next  uint64
		start uint32
	}
	actions := map[writerID]open{}
	for i := range m.lacking {
		one := &m.lacking[i]
		key := one.at.packedKey()
		one.start = uint32(i)
		if action := actions[key.writerID()]; action.next == key.sequence() {
			one.start = action.start
		}
		delete(actions, key.writerID())
		if one.more {
			actions[key.writerID()] = open{key.sequence() + 1, one.start}
		}
	}
	slices.SortStableFunc(m.lacking, func(a, b intact) int { return int(a.start) - int(b.start) })
}

// takeAll takes in what is lacking, some thousand events in each transaction.
func (m *merger) takeAll(take func(*writing, *inventory.Event, []byte) error) error {
	all := len(m.lacking)
	for len(m.lacking) > 0 {
		err := m.book.changing(func(w *writing) error { return m.takeSome(w, take) })
		if err != nil {
			return err
		}
		m.book.tell("read", all-len(m.lacking), all)
	}
	return nil
}

// takeSome takes in the next whole actions.
func (m *merger) takeSome(w *writing, take func(*writing, *inventory.Event, []byte) error) error {
	for amid := false; len(m.lacking) > 0 && (amid || w.added < batchEvents); m.lacking = m.lacking[1:] {
		line, err := m.from.line(m.lacking[0])
		if err != nil {
			return err
		}
		e, err := decodeLine(line)
		if err != nil {
			return err
		}
		if err := w.allowGap(m.lacking[0].at); err != nil {
			return err
		}
		w.lines = append(append(w.lines, line...), '\n')
		w.lastLine = len(line) + 1
		if err := take(w, e, line); err != nil {
			return err
		}
		m.result.Added++
		amid = e.More > 0
	}
	return nil
}

// takeAndRefold takes in events without folding them, and folds everything anew at the
// end. A crash amid it leaves a book that does so when it is opened next.
func (m *merger) takeAndRefold() error {
	m.book.whole.Lock()
	defer m.book.whole.Unlock()
	err := m.takeAll(func(w *writing, e *inventory.Event, line []byte) error {
		at, err := orderOf(e)
		if err != nil {
			return err
		}
		return errors.Join(w.place(at), w.enter(at, line))
	})
	if err != nil {
		return err
	}
	if err := m.book.changingDB(func(w *writing) error { return w.empty(thingsBucket) }); err != nil {
		return err
	}
	return m.book.foldAll()
}
