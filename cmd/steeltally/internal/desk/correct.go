package desk

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/deeds"
)

// Correction says what was wrong.
type Correction struct {
	About        string   // player, piece or set whose entries are meant; empty: the book's last action
	Last         int      // how many of its last grinds; 0: its last action
	Keys         []string // entries by their numbers, as history shows them
	Words        string
	WasSet       string // the grinds were on this set
	WasPlayer    string // the grinds were for this player
	SwappedSince string // left and right were swapped since this time
	BothRight    bool   // the entries are all right, although they look like a conflict
}

// Correct records the correction; what it takes back stays visible.
func (d *Desk) Correct(c Correction) (Done, error) {
	if done, again, err := d.Again(); again || err != nil {
		return done, err
	}
	deed, err := d.correction(c)
	if err != nil {
		return Done{}, err
	}
	done, err := d.do(deed)
	if err != nil {
		return done, err
	}
	done.Back, err = d.takenBack(done.Events)
	return done, err
}

// LastAction says in words what the book's latest action recorded.
func (d *Desk) LastAction() (string, error) {
	events, err := d.lastAction()
	if err != nil {
		return "", err
	}
	lines, err := d.oldLinesOf(events)
	return strings.Join(lines, "; "), err
}

// takenBack says in words what a correction voided.
func (d *Desk) takenBack(events []inventory.Event) ([]string, error) {
	var voided []inventory.Event
	for i := range events {
		for _, key := range inventory.Voids(&events[i]) {
			entry, err := d.book.Find(key)
			if err != nil {
				return nil, err
			}
			voided = append(voided, entry.Event)
		}
	}
	return d.oldLinesOf(voided)
}

// oldLinesOf says in words what was recorded, with its pieces where the words name none;
// of another day than today also when, and by which entry.
func (d *Desk) oldLinesOf(events []inventory.Event) ([]string, error) {
	lines, err := d.linesOf(events)
	today := d.options.Now().In(d.zone).Format(time.DateOnly)
	for i := range lines {
		e := &events[i]
		lines[i] = piecesOf(e.Body) + lines[i]
		if e.Noted.In(d.zone).Format(time.DateOnly) != today {
			lines[i] += fmt.Sprintf(" (%s, %s)", e.Key, e.Happened.Say(d.zone))
		}
	}
	return lines, err
}

// piecesOf names the pieces of a body whose words do not: "R1-1-77 and 5 more: ".
func piecesOf(body inventory.Body) string {
	var pieces []inventory.Number
	switch b := body.(type) {
	case *inventory.Placed:
		pieces = b.Pieces
	case *inventory.Inspected:
		pieces = b.Pieces
	case *inventory.StockedIn:
		pieces = b.Pieces
	}
	switch len(pieces) {
	case 0:
		return ""
	case 1:
		return pieces[0].Short() + ": "
	}
	return fmt.Sprintf("%s and %d more: ", pieces[0].Short(), len(pieces)-1)
}

func (d *Desk) correction(c Correction) (deeds.Deed, error) {
	if c.SwappedSince != "" {
		return d.swapped(c)
	}
	events, err := d.meant(c)
	if err != nil {
		return nil, err
	}
	switch {
	case c.BothRight:
		return deeds.KeepAll{Events: events, Words: c.Words}, nil
	case c.WasSet != "":
		return d.otherSet(c, events)
	case c.WasPlayer != "":
		return d.otherPlayer(c, events)
	}
	return deeds.Undo{Events: events, Words: c.Words}, nil
}

// meant finds the entries that a correction is about, oldest first.
func (d *Desk) meant(c Correction) ([]inventory.Event, error) {
	if len(c.Keys) > 0 {
		return d.byKey(c.Keys)
	}
	if c.About == "" {
		return d.lastAction()
	}
	ref, err := d.refOf(c.About, resolvePlayer)
	if err != nil {
		return nil, err
	}
	standing, err := d.standing(ref)
	if err != nil {
		return nil, err
	}
	if c.Last == 0 && c.WasSet == "" && c.WasPlayer == "" {
		return lastActionOf(standing), nil
	}
	return lastGrinds(standing, max(c.Last, 1))
}

// TakenBackError says that an entry that shall be taken back was taken back before.
type TakenBackError struct{ *inventory.Refusal }

func (e *TakenBackError) Unwrap() error { return e.Refusal }

func (d *Desk) byKey(texts []string) ([]inventory.Event, error) {
	var events []inventory.Event
	for _, text := range texts {
		entry, err := d.book.FindTyped(text)
		if err != nil {
			return nil, err
		}
		if entry.VoidedBy != nil {
			return nil, &TakenBackError{&inventory.Refusal{Reason: "entry " + text + " was taken back already", Hint: "to have it back undo the correction " + entry.VoidedBy.String()}}
		}
		events = append(events, entry.Event)
	}
	return events, nil
}

// refOf is what a text stands for: a piece, or a player found by the way given.
func (d *Desk) refOf(text string, player playerFinder) (inventory.Ref, error) {
	n, err := inventory.ScannedNumber(text)
	if err == nil {
		return inventory.RefOf(n), nil
	}
	err = d.book.Read(func(v inventory.View) (err error) {
		n, err = player(v, text, d.Instant())
		return err
	})
	return inventory.RefOf(n), err
}

// standing are the entries about a thing that were not taken back, in the order in
// which they were noted.
func (d *Desk) standing(ref inventory.Ref) ([]inventory.Event, error) {
	entries, err := d.book.History(ref, 0)
	return onlyStanding(entries), err
}

func onlyStanding(entries []book.Entry) []inventory.Event {
	var events []inventory.Event
	for _, entry := range entries {
		if entry.VoidedBy == nil {
			events = append(events, entry.Event)
		}
	}
	return events
}

// lastAction is the latest action of this book that stands: all its events.
func (d *Desk) lastAction() ([]inventory.Event, error) {
	entries, err := d.book.Latest(recentEntries)
	if err != nil {
		return nil, err
	}
	return lastActionOf(onlyStanding(entries)), nil
}

// recentEntries is how far back the last standing action is looked for.
const recentEntries = 200

// lastActionOf is the last action among events: those noted together with the last.
func lastActionOf(events []inventory.Event) []inventory.Event {
	last := len(events) - 1
	for last >= 0 && isAside(&events[last]) {
		last--
	}
	if last < 0 {
		return nil
	}
	first := last
	for first > 0 && sameAction(&events[first-1], &events[first]) {
		first--
	}
	return events[first : last+1]
}

// isAside tells whether an event is no action of its own that a person would take back:
// a correction, or that tags came out.
func isAside(e *inventory.Event) bool {
	switch e.Body.(type) {
	case *inventory.Correction, *inventory.Printed, *inventory.ClockDoubted:
		return true
	}
	return false
}

// sameAction tells whether b belongs to the action that a is part of.
func sameAction(a, b *inventory.Event) bool {
	return a.Writer == b.Writer && a.Sequence < b.Sequence && a.Sequence+uint64(a.More) >= b.Sequence
}

func lastGrinds(events []inventory.Event, count int) ([]inventory.Event, error) {
	grinds := slices.DeleteFunc(slices.Clone(events), func(e inventory.Event) bool {
		_, ok := e.Body.(*inventory.Ground)
		return !ok
	})
	slices.SortStableFunc(grinds, func(a, b inventory.Event) int { return a.Happened.Compare(b.Happened) })
	if len(grinds) < count {
		return nil, &inventory.Refusal{Reason: fmt.Sprintf("only %d grinds are recorded", len(grinds)), Hint: "steeltally history shows them"}
	}
	return grinds[len(grinds)-count:], nil
}

func (d *Desk) otherSet(c Correction, grinds []inventory.Event) (deeds.Deed, error) {
	deed := deeds.OtherSet{Grinds: grinds}
	err := d.book.Read(func(v inventory.View) (err error) {
		player := playerOf(grinds)
		deed.Set, err = setOf(v, player, c.WasSet)
		return err
	})
	return deed, err
}

// playerOf is the player that grinds were logged for.
func playerOf(grinds []inventory.Event) inventory.Number {
	for i := range grinds {
		if b, ok := grinds[i].Body.(*inventory.Ground); ok {
			return b.Player
		}
	}
	return 0
}

func (d *Desk) otherPlayer(c Correction, grinds []inventory.Event) (deeds.Deed, error) {
	deed := deeds.OtherPlayer{Grinds: grinds}
	err := d.book.Read(func(v inventory.View) (err error) {
		deed.Player, err = resolvePlayer(v, c.WasPlayer, d.Instant())
		return err
	})
	return deed, err
}

// swapped says that the set that was on had its sides swapped since a time.
func (d *Desk) swapped(c Correction) (deeds.Deed, error) {
	since, err := inventory.ParseWhen(c.SwappedSince, d.zone)
	if err != nil {
		return nil, &inventory.BadValue{Reason: err.Error()}
	}
	deed := deeds.SwapSides{Since: since}
	err = d.book.Read(func(v inventory.View) error {
		target, err := resolve(v, c.About, d.Instant())
		if err != nil {
			return err
		}
		if deed.Set = target.Set; deed.Set != 0 {
			return nil
		}
		deed.Set, err = setOn(v, target, d.Instant())
		return err
	})
	if err != nil {
		return nil, err
	}
	deed.History, err = d.standing(inventory.RefOf(deed.Set))
	return deed, err
}
