package desk

import (
	"cmp"
	"errors"
	"fmt"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/deeds"
)

// ClockSetting says which entries were noted under a clock that stood wrong, and how wrong.
type ClockSetting struct {
	First string        // the first entry; empty: where the clock was in doubt first
	Last  string        // the last one; empty: until the clock stood otherwise
	By    time.Duration // they happened so much later; or
	Was   string        // when the first one was truly made
}

// SetClock sets right what a clock dated that stood wrong, in one entry that can be undone.
func (d *Desk) SetClock(c ClockSetting) (Done, error) {
	if done, again, err := d.Again(); again || err != nil {
		return done, err
	}
	deed, err := d.clockDeed(c)
	if err != nil {
		return Done{}, err
	}
	return d.do(deed)
}

func (d *Desk) clockDeed(c ClockSetting) (deed deeds.SetClock, err error) {
	state, err := d.ClockState()
	if err != nil {
		return deed, err
	}
	first, err := d.firstUnder(c.First, state)
	if err != nil {
		return deed, err
	}
	if deed.Events, err = d.notedUnder(first, c.Last, state); err != nil {
		return deed, err
	}
	if deed.By = c.By; c.Was != "" {
		was, err := inventory.ParseWhen(c.Was, d.zone)
		if err == nil && !was.Exact() {
			err = errors.New("say it to the minute, such as 2026-04-13T09:10")
		}
		if err != nil {
			return deed, &inventory.BadValue{Reason: err.Error()}
		}
		deed.By = was.Start.Sub(deed.Events[0].Noted.Truncate(time.Second))
	}
	from, until := deed.Events[0].Sequence, deed.Events[len(deed.Events)-1].Sequence
	for _, doubt := range state.Doubts { // also that which was noted once the clock stood otherwise
		if doubt.Entry.Writer == first.Writer && doubt.Entry.Sequence >= from && doubt.Entry.Sequence <= until+1 {
			deed.Doubts = append(deed.Doubts, doubt)
		}
	}
	return deed, nil
}

// firstUnder is the first entry that was noted under the clock.
func (d *Desk) firstUnder(typed string, state ClockState) (inventory.Key, error) {
	if typed != "" {
		entry, err := d.book.FindTyped(typed)
		return entry.Key, err
	}
	if len(state.Doubts) == 0 {
		return inventory.Key{}, inventory.Refuse("no clock is in doubt", "name the first entry that was noted under it, as history shows it: steeltally clock set 812@c3a9 --was TIME")
	}
	return state.Doubts[0].Entry, nil
}

// notedUnder are the entries of a writer from one on, until one that is named, or until
// the clock stood otherwise: it went back, or, where it was behind, came up again.
func (d *Desk) notedUnder(first inventory.Key, last string, state ClockState) ([]inventory.Event, error) {
	end, err := d.endOf(first, last)
	if err != nil {
		return nil, err
	}
	behind := time.Time{}
	for _, doubt := range state.Doubts {
		if doubt.Entry == first && doubt.Last.After(doubt.Noted.Start) {
			behind = doubt.Last.Start
		}
	}
	var events []inventory.Event
	for key := first; key.Sequence <= end; key.Sequence++ {
		entry, err := d.book.Find(key)
		var unknown *book.UnknownEventError
		if errors.As(err, &unknown) && len(events) > 0 {
			break // the writer's last
		}
		if err != nil {
			return nil, err
		}
		if n := len(events); last == "" && n > 0 {
			back := entry.Noted.Before(events[n-1].Noted.Add(-time.Minute))
			if back || !behind.IsZero() && !entry.Noted.Before(behind) {
				break
			}
		}
		events = append(events, entry.Event)
	}
	return events, nil
}

// endOf is the sequence of the last entry that can be meant.
func (d *Desk) endOf(first inventory.Key, last string) (uint64, error) {
	const never = ^uint64(0)
	if last == "" {
		return never, nil
	}
	entry, err := d.book.FindTyped(last)
	if err == nil && (entry.Writer != first.Writer || cmp.Less(entry.Sequence, first.Sequence)) {
		err = inventory.RefuseValue(fmt.Sprintf("entry %s does not come after %s on the same machine", entry.Key, first), "name the first and the last entry of one machine, as history shows them")
	}
	return entry.Sequence, err
}
