package book

import (
	"bytes"
	"errors"
	"fmt"
	"slices"

	"steeltally/inventory"
)

// merger takes in what another book has and this one lacks.
type merger struct {
	book     *Book
	from     *salvage
	other    Other
	result   *Merged
	diverged map[writerID]bool // writers that went on separately
	aside    *asides
	lacking  []intact
	own      Setback                         // what this book's own writer wrote and this book lacked
	twins    map[packedKey][]inventory.Event // what the rest of an action has to be a twin of
	apart    apart
}

func (m *merger) all() error {
	if err := m.book.writable(); err != nil {
		return err
	}
	if err := m.compare(); err != nil {
		return err
	}
	if err := m.take(); err != nil {
		return err
	}
	return m.leaveWriter()
}

// leaveWriter lets another writer go on where the other book knows more of this one's
// own writer: this folder was put back to an older copy, or is a clone.
func (m *merger) leaveWriter() error {
	if m.own.Until == 0 {
		return nil
	}
	at, err := m.book.headNow()
	if err != nil {
		return err
	}
	m.result.PutBack = true
	if err := m.book.changeWriter(at, at.Machine, &m.own); err != nil {
		return err
	}
	return m.book.startReach(at.Machine)
}

// noteOwn notes an event of the book's own writer that the book lacks.
func (m *merger) noteOwn(r *reading, key packedKey) {
	if key.writer() != r.head.Writer {
		return
	}
	if m.own.Until == 0 {
		m.own.Stretch = Stretch{Writer: key.writer(), From: key.sequence()}
	}
	m.own.Until = key.sequence()
}

// take takes in what is lacking.
func (m *merger) take() error {
	if len(m.lacking) == 0 {
		return nil
	}
	if err := m.checkClub(); err != nil {
		return err
	}
	first := m.lacking[0].at
	keepActions(m.lacking)
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
	if err := m.apart.read(m.aside.path); err != nil {
		return err
	}
	return m.book.readingNow(func(r *reading) error {
		g := newGate(r)
		for _, one := range m.from.found {
			if err := m.compareOne(r, g, one); err != nil {
				return err
			}
		}
		return m.aside.write()
	})
}

func (m *merger) compareOne(r *reading, g *gate, one intact) error {
	key := one.at.packedKey()
	at, found, err := r.find(key)
	free := false
	if err == nil && !found && !m.diverged[key.writerID()] {
		free, err = r.isFree(one.at)
	}
	if err != nil {
		return err
	}
	if free {
		known, err := m.isTwin(r, one)
		if known {
			m.noteOwn(r, key)
			m.result.Known++
			g.known(one.at)
		}
		if err != nil || known {
			return err
		}
		refused, err := refusalOf(g.admit(r, one.at))
		if err != nil {
			return err
		}
		if refused != "" {
			return m.setAside(one, refused)
		}
		m.noteOwn(r, key)
		m.apart.same(key)
		m.lacking = append(m.lacking, one)
		return nil
	}
	line, err := m.from.line(one)
	if err != nil {
		return err
	}
	if found && !m.diverged[key.writerID()] && bytes.Equal(line, r.line(at)) {
		m.result.Known++
		m.apart.same(key)
		g.known(at)
		return nil
	}
	m.diverged[key.writerID()] = true
	m.apart.note(key)
	m.noteOwn(r, key)
	taken, err := m.isTwin(r, one)
	if err != nil {
		return err
	}
	if taken {
		m.result.Known++
		return nil
	}
	return m.setAside(one, fmt.Sprintf("writer %s went on in two copies of the book", key.writer()))
}

// isTwin tells whether an event is here under another key already.
func (m *merger) isTwin(r *reading, one intact) (bool, error) {
	key := one.at.packedKey()
	line, err := m.from.line(one)
	if err != nil {
		return false, err
	}
	rest, follows := m.twins[key]
	delete(m.twins, key)
	if !follows {
		if rest, err = r.twinOf(key, one.sum, line); err != nil {
			return false, err
		}
	}
	if len(rest) == 0 {
		return false, nil
	}
	e, err := decodeLine(line)
	if err != nil || !sameDeed(e, &rest[0]) {
		return false, err
	}
	if next, err := packKey(inventory.Key{Writer: e.Writer, Sequence: e.Sequence + 1}); one.more && err == nil {
		m.twins[next] = rest[1:]
	}
	return true, nil
}

// setAside keeps a line beside the record.
func (m *merger) setAside(one intact, reason string) error {
	line, err := m.from.line(one)
	if err != nil {
		return err
	}
	return m.keepAside(one.at.packedKey(), reason, line)
}

// keepAside counts a line that a person has put away already as known.
func (m *merger) keepAside(key packedKey, reason string, line []byte) error {
	m.apart.note(key)
	waits, err := m.aside.keep(reason, line)
	if waits {
		m.result.SetAside++
	} else if err == nil {
		m.result.Known++
	}
	return err
}

// checkClub refuses the book of a club of another name that has no event in common
// with this one, and one of the same name that was begun apart and gave the same numbers.
func (m *merger) checkClub() error {
	if m.other.AnyClub || m.result.Known > 0 {
		return nil
	}
	ours, err := m.ourClub()
	if err != nil {
		return err
	}
	theirs := ""
	for _, one := range m.lacking {
		e, err := m.from.clubNoted(one)
		if err != nil {
			return err
		}
		if e == nil {
			continue
		}
		if theirs = e.Body.(*inventory.ClubNoted).Name; ours.Named(theirs) {
			return m.checkNumbers()
		}
	}
	if theirs == "" {
		return nil
	}
	return &OtherClubError{m.other.From, theirs, ours.Name}
}

// checkNumbers refuses a book of which no event is known here where it gave a number that
// this one gave, too: two players or two pieces would become one.
func (m *merger) checkNumbers() error {
	return m.book.readingNow(func(r *reading) error {
		v := &view{r: r}
		for _, one := range m.lacking {
			line, err := m.from.line(one)
			if err != nil {
				return err
			}
			e, err := decodeLine(line)
			if err != nil {
				return err
			}
			for _, n := range inventory.Gives(e.Body) {
				if inventory.IsEntered(v.Entity(inventory.RefOf(n))) && v.err == nil {
					return &BegunApartError{m.other.From, n}
				}
			}
			if v.err != nil {
				return v.err
			}
		}
		return nil
	})
}

func (m *merger) ourClub() (club inventory.Club, err error) {
	err = m.book.readingNow(func(r *reading) error {
		v := &view{r: r}
		club = *inventory.ClubOf(v)
		return v.err
	})
	return club, err
}

// keepActions keeps the events of an action together, as a journal has them.
func keepActions(list []intact) {
	type open struct {
		next  uint64
		start uint32
	}
	actions := map[writerID]open{}
	for i := range list {
		one := &list[i]
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
	slices.SortStableFunc(list, func(a, b intact) int { return int(a.start) - int(b.start) })
}

// actionLength is how many events the action has that a list begins with.
func actionLength(list []intact) int {
	count := 1
	for count < len(list) && list[count].start == list[0].start {
		count++
	}
	return count
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
	for len(m.lacking) > 0 && w.roomInBatch() {
		count := actionLength(m.lacking)
		if err := m.takeAction(w, m.lacking[:count], take); err != nil {
			return err
		}
		m.lacking = m.lacking[count:]
	}
	return m.aside.write()
}

// takeAction takes in all events of an action, or sets them aside.
func (m *merger) takeAction(w *writing, action []intact, take func(*writing, *inventory.Event, []byte) error) error {
	lines := make([][]byte, len(action))
	events := make([]*inventory.Event, len(action))
	for i, one := range action {
		var err error
		if lines[i], err = m.from.line(one); err != nil {
			return err
		}
		if events[i], err = decodeLine(lines[i]); err != nil {
			return err
		}
	}
	if refused := m.apart.admit(events); refused != nil {
		for i, line := range lines {
			if err := m.keepAside(action[i].at.packedKey(), refused.Error(), line); err != nil {
				return err
			}
		}
		return nil
	}
	for i, e := range events {
		if err := w.allowGap(action[i].at); err != nil {
			return err
		}
		w.addLine(lines[i])
		if err := take(w, e, lines[i]); err != nil {
			return err
		}
	}
	m.result.Added += len(action)
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
	if err := m.book.changingDB(func(w *writing) error { return w.empty(thingsBucket, flaggedBucket) }); err != nil {
		return err
	}
	return m.book.foldAll()
}
