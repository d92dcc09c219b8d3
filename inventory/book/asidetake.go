package book

import (
	"bytes"
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"slices"
	"time"

	"steeltally/inventory"
)

// Aside is an event that is kept beside the record and waits for a person.
type Aside struct {
	Event  inventory.Event
	Reason string
	line   []byte
	ticket string // of the action that it is taken in by
	away   bool   // a person put it away
}

// asideTicket begins the tickets of actions that take in what was set aside. They name
// the line, so that it comes into the record once, at whatever station.
const asideTicket = "set-aside "

func ticketOf(key inventory.Key, line []byte) string { return ticketFor(key, lineSum(line)) }

func ticketFor(key inventory.Key, sum uint32) string {
	return fmt.Sprintf("%s%d@%s %08x", asideTicket, key.Sequence, key.Writer, sum)
}

// Asides lists what is set aside and neither dropped nor in the record since, in fold
// order, the events of an action together.
func (b *Book) Asides() ([]Aside, error) {
	all, err := b.allAsides()
	if err != nil {
		return nil, err
	}
	err = b.reading(func(r *reading) error {
		open := all[:0]
		for _, one := range all {
			if one.away {
				continue
			}
			done, err := r.isIn(one)
			if err != nil {
				return err
			}
			if !done {
				open = append(open, one)
			}
		}
		all = open
		return nil
	})
	return all, err
}

// isIn tells whether what was set aside is in the record, as it is or taken in.
func (r *reading) isIn(one Aside) (bool, error) {
	taken, err := r.actionOf(one.ticket)
	if err != nil || slices.ContainsFunc(taken, func(e inventory.Event) bool { return sameDeed(&e, &one.Event) }) {
		return err == nil, err
	}
	at, err := orderOf(&one.Event)
	if err != nil {
		return false, nil // it can't be in it
	}
	return bytes.Equal(r.line(at), one.line), nil
}

// allAsides reads what is set aside, also what was put away.
func (b *Book) allAsides() ([]Aside, error) {
	var all []Aside
	err := eachAside(filepath.Join(b.dir, setAsideName), func(line []byte, _ int64) error {
		var said SetAside
		if err := json.Unmarshal(line, &said); err != nil {
			return &DamageError{setAsideName, err.Error()}
		}
		one := Aside{Reason: said.Reason, line: bytes.Clone(eventIn(line)), away: said.Dropped}
		if checkLine(one.line) != nil || one.Event.UnmarshalJSON(one.line) != nil {
			return nil
		}
		all = append(all, one)
		return nil
	})
	slices.SortStableFunc(all, func(a, b Aside) int { return inventory.CompareOrder(&a.Event, &b.Event) })
	return inActions(all), err
}

// inActions keeps the events of an action together, and gives all of them its ticket.
func inActions(all []Aside) []Aside {
	type follower struct {
		key  inventory.Key
		more int
	}
	starts := map[follower]int{} // what follows, to the place of its action
	var actions [][]Aside
	for _, one := range all {
		is := follower{one.Event.Key, one.Event.More}
		at, follows := starts[is]
		if !follows {
			at = len(actions)
			actions = append(actions, nil)
			one.ticket = ticketOf(one.Event.Key, one.line)
		} else {
			one.ticket = actions[at][0].ticket
			delete(starts, is)
		}
		actions[at] = append(actions[at], one)
		if one.Event.More > 0 {
			starts[follower{inventory.Key{Writer: is.key.Writer, Sequence: is.key.Sequence + 1}, is.more - 1}] = at
		}
	}
	return slices.Concat(actions...)
}

// TakeAside enters an action that was set aside as a new one of this book's writer; all
// its events are given, as Asides lists them. Given again it is recorded once.
func (b *Book) TakeAside(action []Aside, noted time.Time) ([]inventory.Event, error) {
	all, err := b.allAsides()
	if err != nil {
		return nil, err
	}
	drafts := make([]inventory.Draft, len(action))
	for i, one := range action {
		if drafts[i], err = b.draftOf(one, all); err != nil {
			return nil, err
		}
	}
	stamp := Stamp{Who: action[0].Event.Who, Noted: noted, Ticket: action[0].ticket}
	return b.Record(stamp, func(inventory.View) ([]inventory.Draft, error) { return drafts, nil })
}

// draftOf is what is recorded of an event that was set aside. What it names by keys that
// another event has here, it names by those under which that was taken in.
func (b *Book) draftOf(one Aside, all []Aside) (inventory.Draft, error) {
	if err := one.Event.CheckHeld(); err != nil {
		return inventory.Draft{}, inventory.Refuse(fmt.Sprintf("%v can't be: %v", one.Event.Key, err), "look at it, and put it away: steeltally setaside drop "+one.Event.Key.String())
	}
	if one.Event.Newer() {
		return inventory.Draft{}, inventory.Refuse(fmt.Sprintf("a newer program wrote %v", one.Event.Key), "take it in with the newer program")
	}
	return inventory.Draft{Happened: one.Event.Happened, Body: one.Event.Body}, b.rename(one, all)
}

// rename gives a body that names what was set aside the keys under which that is in the
// record.
func (b *Book) rename(one Aside, all []Aside) error {
	var refused error
	aside := map[inventory.Key]bool{}
	for _, other := range all {
		aside[other.Event.Key] = true
	}
	inventory.MapKeys(one.Event.Body, func(key inventory.Key) inventory.Key {
		if !aside[key] {
			if one.Reason == namesAnother.Error() {
				refused = cmp.Or(refused, inventory.Refuse(fmt.Sprintf("it is about %v of another book, which is not among what is set aside", key), "enter anew what it says"))
			}
			return key
		}
		taken, err := b.takenAs(key, one, all)
		refused = cmp.Or(refused, err)
		return taken
	})
	if refused == nil && inventory.NamesAny(one.Event.Body, aside) {
		refused = inventory.Refuse("it sets right the time of entries that are others here", "set that clock right here: steeltally clock set")
	}
	return refused
}

// takenAs is the key under which an event that was set aside is in the record, as another
// one that was set aside means it.
func (b *Book) takenAs(key inventory.Key, by Aside, all []Aside) (inventory.Key, error) {
	at := slices.IndexFunc(all, func(one Aside) bool { return one.Event.Key == key })
	if slices.ContainsFunc(all[at+1:], func(one Aside) bool { return one.Event.Key == key }) {
		return key, inventory.Refuse(fmt.Sprintf("more than one entry is set aside as %v, and which of them it is about is not known", key), "enter anew what it says")
	}
	if err := b.checkMeant(key, by); err != nil {
		return key, err
	}
	events, err := b.Known(all[at].ticket)
	if err != nil {
		return key, err
	}
	for first := at; first >= 0 && all[first].ticket == all[at].ticket; first-- {
		if at-first < len(events) && (first == 0 || all[first-1].ticket != all[at].ticket) {
			return events[at-first].Key, nil
		}
	}
	if all[at].away {
		return key, inventory.Refuse(fmt.Sprintf("it is about %v, which was put away", key), "put this away as well: steeltally setaside drop "+by.Event.Key.String())
	}
	return key, inventory.Refuse(fmt.Sprintf("it is about %v, which is set aside as well", key), "take that in first")
}

// checkMeant refuses an event that may mean the entry which has the key here: the book
// that it comes from held the other one only where it was set aside for that, or where
// both are of one writer, who went on there.
func (b *Book) checkMeant(key inventory.Key, by Aside) error {
	if by.Reason == namesAnother.Error() || by.Event.Writer == key.Writer {
		return nil
	}
	packed, err := packKey(key)
	if err != nil {
		return nil // it is not here
	}
	return b.reading(func(r *reading) error {
		if _, here, err := r.find(packed); err != nil || !here {
			return err
		}
		return inventory.Refuse(fmt.Sprintf("there is an entry %v here and another one set aside, and which of them it is about is not known", key), "enter anew what it says")
	})
}

// DropAside puts away what is set aside, and keeps it in the file.
func (b *Book) DropAside(which []Aside) error {
	b.mutex.Lock()
	defer b.mutex.Unlock()
	if err := b.writable(); err != nil {
		return err
	}
	drop := map[tally]bool{}
	for _, one := range which {
		drop[fingerprint(one.line)] = true
	}
	var text bytes.Buffer
	path := filepath.Join(b.dir, setAsideName)
	err := eachAside(path, func(line []byte, _ int64) error {
		if event := eventIn(line); drop[fingerprint(event)] {
			var said SetAside
			if err := json.Unmarshal(line, &said); err != nil {
				return &DamageError{setAsideName, err.Error()}
			}
			return writeAside(&text, SetAside{Reason: said.Reason, Dropped: true}, event)
		}
		text.Write(append(line, '\n'))
		return nil
	})
	if err != nil {
		return err
	}
	err = WriteWhole(path, func(w io.Writer) error {
		_, err := text.WriteTo(w)
		return err
	})
	return errors.Join(err, syncPath(b.dir))
}

// ActionsOf parts what is set aside into actions.
func ActionsOf(asides []Aside) [][]Aside {
	var actions [][]Aside
	for i, one := range asides {
		if i == 0 || asides[i-1].ticket != one.ticket {
			actions = append(actions, nil)
		}
		last := len(actions) - 1
		actions[last] = append(actions[last], one)
	}
	return actions
}
