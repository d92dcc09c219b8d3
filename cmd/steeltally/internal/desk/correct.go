package desk

import (
	"errors"
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
	Pair         string // with WasSet: the pair that was ground, by role or number; empty: that of the grinds
	BothRight    bool   // the entries are all right, although they look like a conflict

	Given time.Time // when it was said, where that was before the book was opened; zero: now
}

// Correct records the correction; what it takes back stays visible. Which entries are meant
// is settled when it is given, and that they stand where it is recorded: of several who
// take one entry back at once, one does.
func (d *Desk) Correct(c Correction) (Done, error) {
	if done, again, err := d.Again(); again || err != nil {
		return done, err
	}
	meant, err := d.meant(c)
	if err != nil {
		return Done{}, err
	}
	done, err := d.act(func(v inventory.View, _ deeds.Moment) (deeds.Deed, error) {
		if err := d.checkStand(meant); err != nil {
			return nil, err
		}
		return d.correction(v, c, meant)
	})
	if err != nil {
		return done, err
	}
	done.Back, err = d.takenBack(done.Events)
	return done, err
}

// LastAction is the book's latest action, and what it recorded in words.
func (d *Desk) LastAction() ([]inventory.Key, string, error) {
	events, err := d.lastAction(time.Time{})
	if err != nil {
		return nil, "", err
	}
	lines, err := d.oldLinesOf(events)
	return Done{Events: events}.Keys(), strings.Join(lines, "; "), err
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

func (d *Desk) correction(v inventory.View, c Correction, events []inventory.Event) (deeds.Deed, error) {
	switch {
	case c.SwappedSince != "":
		return d.swapped(v, c)
	case c.BothRight:
		return deeds.KeepAll{Events: events, Words: c.Words}, nil
	case c.WasSet != "":
		set, err := setOf(v, playerOf(events), c.WasSet)
		if err != nil {
			return nil, err
		}
		pair, err := pairOf(v, playerOf(events), c.Pair, d.Instant())
		return deeds.OtherSet{Grinds: events, Set: set, Pair: pair}, err
	case c.WasPlayer != "":
		player, err := resolvePlayer(v, c.WasPlayer, d.Instant())
		return deeds.OtherPlayer{Grinds: events, Player: player}, err
	}
	return deeds.Undo{Events: events, Words: c.Words}, nil
}

// meant finds the entries that a correction is about, oldest first.
func (d *Desk) meant(c Correction) ([]inventory.Event, error) {
	switch {
	case c.SwappedSince != "":
		return nil, nil // all since then
	case len(c.Keys) > 0:
		return d.byKey(c.Keys)
	case c.About == "":
		return d.lastAction(c.Given)
	}
	ref, err := d.refOf(c.About, resolvePlayer)
	if err != nil {
		return nil, err
	}
	entries, err := d.book.History(ref, 0)
	if err == nil {
		err = d.checkWaited(entries, c.Given)
	}
	if err != nil {
		return nil, err
	}
	if c.Last == 0 && c.WasSet == "" && c.WasPlayer == "" {
		return d.wholeAction(lastActionOf(onlyStanding(entries)))
	}
	return lastGrinds(onlyStanding(entries), max(c.Last, 1))
}

// TakenBackError says that an entry that shall be taken back was taken back before.
type TakenBackError struct{ *inventory.Refusal }

func (e *TakenBackError) Unwrap() error { return e.Refusal }

func takenBackBy(entry string, by inventory.Key) error {
	return &TakenBackError{&inventory.Refusal{Reason: "entry " + entry + " was taken back already", Hint: "to have it back undo the correction " + by.String()}}
}

// checkWaited refuses what was said while another program had the book, and took something
// back: what was the last then is not the last any more.
func (d *Desk) checkWaited(entries []book.Entry, given time.Time) error {
	for _, entry := range entries {
		waited := !given.IsZero() && entry.Noted.After(given) && !entry.Noted.After(d.options.Now())
		if voids := inventory.Voids(&entry.Event); waited && len(voids) > 0 && entry.VoidedBy == nil {
			return takenBackBy(voids[0].String(), entry.Key)
		}
	}
	return nil
}

func (d *Desk) byKey(texts []string) ([]inventory.Event, error) {
	var events []inventory.Event
	for _, text := range texts {
		entry, err := d.book.FindTyped(text)
		if err != nil {
			return nil, err
		}
		if entry.VoidedBy != nil {
			return nil, takenBackBy(text, *entry.VoidedBy)
		}
		events = append(events, entry.Event)
	}
	return events, nil
}

// checkStand refuses entries of which one was taken back since they were looked up.
func (d *Desk) checkStand(events []inventory.Event) error {
	for i := range events {
		entry, err := d.book.Find(events[i].Key)
		if err != nil {
			return err
		}
		if entry.VoidedBy != nil {
			return takenBackBy(entry.Key.String(), *entry.VoidedBy)
		}
	}
	return nil
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
func (d *Desk) lastAction(given time.Time) ([]inventory.Event, error) {
	entries, err := d.book.Latest(recentEntries)
	if err == nil {
		err = d.checkWaited(entries, given)
	}
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

// wholeAction is the action that some events are of, with what of it was about other pieces.
func (d *Desk) wholeAction(some []inventory.Event) ([]inventory.Event, error) {
	if len(some) == 0 {
		return nil, nil
	}
	last := some[len(some)-1]
	last.Sequence += uint64(last.More)
	var all []inventory.Event
	for key := last.Key; key.Sequence > 0; key.Sequence-- {
		entry, err := d.book.Find(key)
		if unknown := new(book.UnknownEventError); errors.As(err, &unknown) {
			break
		}
		if err != nil {
			return nil, err
		}
		if uint64(entry.More) != last.Sequence-key.Sequence {
			break
		}
		if entry.VoidedBy != nil && key == some[len(some)-1].Key {
			return nil, takenBackBy(key.String(), *entry.VoidedBy) // since it was looked up
		}
		if _, doubt := entry.Body.(*inventory.ClockDoubted); entry.VoidedBy == nil && !doubt {
			all = append(all, entry.Event)
		}
	}
	slices.Reverse(all)
	return all, nil
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

// playerOf is the player that grinds were logged for.
func playerOf(grinds []inventory.Event) inventory.Number {
	for i := range grinds {
		if b, ok := grinds[i].Body.(*inventory.Ground); ok {
			return b.Player
		}
	}
	return 0
}

// swapped says that the sides of a set, or of what a player or a pair had on, were
// swapped since a time.
func (d *Desk) swapped(v inventory.View, c Correction) (deeds.Deed, error) {
	since, err := inventory.ParseWhen(c.SwappedSince, d.zone)
	if err != nil {
		return nil, &inventory.BadValue{Reason: err.Error()}
	}
	target, err := resolve(v, c.About, d.Instant())
	if err != nil {
		return nil, err
	}
	sets := []inventory.Number{target.Set}
	if target.Set == 0 {
		if sets, err = setsOf(v, target); err != nil {
			return nil, err
		}
	}
	deed := deeds.SwapSides{Since: since, Named: target.Set != 0}
	for _, set := range sets {
		events, err := d.standing(inventory.RefOf(set))
		if err != nil {
			return nil, err
		}
		deed.Sets = append(deed.Sets, deeds.SetHistory{Set: set, Events: events})
	}
	return deed, nil
}

// setsOf are all sets of a player, or those of them that ever were on the pair that is meant.
func setsOf(v inventory.View, target Target) ([]inventory.Number, error) {
	player, err := inventory.PlayerOf(v, target.Player)
	if err != nil {
		return nil, err
	}
	var sets []inventory.Number
	for _, lettered := range player.Sets {
		set, err := inventory.FindSet(v, lettered.Set)
		if err == nil && (target.Pair == 0 || slices.ContainsFunc(set.Uses, func(u inventory.Dated[inventory.Use]) bool { return u.Value.Pair == target.Pair })) {
			sets = append(sets, set.Number)
		}
	}
	return sets, nil
}
