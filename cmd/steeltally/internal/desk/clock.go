package desk

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/deeds"
)

// ClockDoubt is a clock that says something far from what was noted last.
type ClockDoubt struct {
	Last  inventory.When `json:"last_noted"`
	Says  inventory.When `json:"says"`
	Event inventory.Key  `json:"-"` // that keeps the doubt; zero where nothing was recorded yet
}

// notedView is a view that knows when the last entries were noted.
type notedView interface{ LastNoted() (own, any time.Time) }

// lastNoted is when entries were noted last.
func lastNoted(v inventory.View) (deeds.Noted, bool) {
	noted, ok := v.(notedView)
	if !ok {
		return deeds.Noted{}, false
	}
	own, any := noted.LastNoted()
	return deeds.Noted{Own: own, Any: any}, true
}

// doubted is the draft that says of those before it that the clock was in doubt, where it
// is and no person said that it is right. What sets a clock right is not in doubt itself.
func (d *Desk) doubted(v inventory.View, drafts []inventory.Draft, now time.Time) []inventory.Draft {
	noted, ok := lastNoted(v)
	if !ok || len(drafts) == 0 {
		return nil
	}
	switch drafts[0].Body.(type) {
	case *inventory.ClockSet, *inventory.ClockRight:
		return nil
	}
	last, doubted := noted.Doubts(now)
	if !doubted || d.trusts(now) {
		return nil
	}
	body := &inventory.ClockDoubted{Entries: len(drafts), Last: inventory.At(last)}
	return []inventory.Draft{{Happened: inventory.At(now), Body: body}}
}

// apart takes from an action's entries the one that says that the clock was in doubt.
func apart(events []inventory.Event) ([]inventory.Event, *ClockDoubt) {
	if n := len(events) - 1; n > 0 {
		if body, ok := events[n].Body.(*inventory.ClockDoubted); ok {
			return events[:n], &ClockDoubt{body.Last, inventory.At(events[n].Noted), events[n].Key}
		}
	}
	return events, nil
}

// ClockDoubt tells whether the machine's clock lies far from what was noted last, so that
// a person can be asked before anything is recorded.
func (d *Desk) ClockDoubt() (doubt *ClockDoubt, err error) {
	now := d.options.Now()
	err = d.book.Read(func(v inventory.View) error {
		if noted, ok := lastNoted(v); ok {
			if last, doubted := noted.Doubts(now); doubted {
				doubt = &ClockDoubt{Says: inventory.At(now), Last: inventory.At(last)}
			}
		}
		return nil
	})
	return doubt, err
}

// TrustClock takes a person's word that what this machine's clock says is right.
func (d *Desk) TrustClock() { d.trusted = d.options.Now() }

// trusts tells whether the clock goes on from where a person said that it is right.
func (d *Desk) trusts(now time.Time) bool {
	if d.trusted.IsZero() {
		return false
	}
	_, doubted := deeds.Noted{Own: d.trusted, Any: d.trusted}.Doubts(now)
	return !doubted
}

// SayDoubt says what a clock says, and what was noted last.
func (d *Desk) SayDoubt(doubt ClockDoubt) string {
	const layout = "Mon 2 Jan 2006 15:04"
	return fmt.Sprintf("this machine says %s; the last entry was noted on %s", doubt.Says.Start.In(d.zone).Format(layout), doubt.Last.Start.In(d.zone).Format(layout))
}

// doubtNotice says of what was recorded that the clock is in doubt.
func (d *Desk) doubtNotice(doubt ClockDoubt) inventory.Notice {
	return inventory.Notice{
		Text: d.SayDoubt(doubt) + ": recorded and flagged, until somebody says whether the clock is right",
		Hint: "is it right: steeltally clock right; is it wrong: set the machine's clock, then steeltally clock set",
	}
}

// ClockState is what is known of the clocks.
type ClockState struct {
	Now    time.Time
	Last   time.Time // when this machine, or where it noted nothing yet any, noted something last
	Doubts []inventory.ClockDoubt
}

// ClockState tells what this machine's clock says, and which entries are in doubt.
func (d *Desk) ClockState() (state ClockState, err error) {
	state.Now = d.options.Now()
	err = d.book.Read(func(v inventory.View) error {
		if noted, ok := lastNoted(v); ok {
			if state.Last = noted.Own; state.Last.IsZero() {
				state.Last = noted.Any
			}
		}
		state.Doubts = inventory.ClocksOf(v).Open()
		return nil
	})
	return state, err
}

// InDoubt tells whether nobody settled a doubt yet.
func (d *Desk) InDoubt(doubt ClockDoubt) (open bool, err error) {
	err = d.book.Read(func(v inventory.View) error {
		open = slices.ContainsFunc(inventory.ClocksOf(v).Open(), func(o inventory.ClockDoubt) bool { return o.Event == doubt.Event })
		return nil
	})
	return open, err
}

// KeepClock says that clocks in doubt stood right: all, or those when entries were noted.
func (d *Desk) KeepClock(entries ...string) (Done, error) {
	keys, err := d.keysOf(entries)
	if err != nil {
		return Done{}, err
	}
	return d.act(func(v inventory.View, _ deeds.Moment) (deeds.Deed, error) {
		open := inventory.ClocksOf(v).Open()
		for _, key := range keys {
			if !slices.ContainsFunc(open, func(doubt inventory.ClockDoubt) bool { return doubt.Entry == key || doubt.Event == key }) {
				return nil, inventory.Refuse(fmt.Sprintf("the clock is not in doubt at entry %s", key), "steeltally clock shows what is")
			}
		}
		if len(keys) > 0 {
			open = slices.DeleteFunc(open, func(doubt inventory.ClockDoubt) bool {
				return !slices.Contains(keys, doubt.Entry) && !slices.Contains(keys, doubt.Event)
			})
		}
		return deeds.KeepClock{Doubts: open}, nil
	})
}

// TakeBackUnder takes back what was recorded under a clock in doubt, and with it the doubt.
func (d *Desk) TakeBackUnder(doubt inventory.Key) (Done, error) {
	entry, err := d.book.Find(doubt)
	if err != nil {
		return Done{}, err
	}
	taken := Correction{Words: "the clock was wrong"}
	if body, ok := entry.Body.(*inventory.ClockDoubted); ok {
		for back := uint64(max(body.Entries, 0)); back > 0 && back < doubt.Sequence; back-- {
			taken.Keys = append(taken.Keys, wholeKey(inventory.Key{Writer: doubt.Writer, Sequence: doubt.Sequence - back}))
		}
	}
	taken.Keys = append(taken.Keys, wholeKey(doubt))
	return d.Correct(taken)
}

// wholeKey is a key with all digits of its writer.
func wholeKey(key inventory.Key) string { return fmt.Sprintf("%d@%s", key.Sequence, key.Writer) }

func (d *Desk) keysOf(texts []string) ([]inventory.Key, error) {
	var keys []inventory.Key
	for _, text := range texts {
		entry, err := d.book.FindTyped(text)
		if err != nil {
			return nil, err
		}
		keys = append(keys, entry.Key)
	}
	return keys, nil
}

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
