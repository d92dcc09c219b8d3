package deeds

import (
	"errors"
	"strings"
	"testing"
	"time"

	"steeltally/geometry"
	"steeltally/inventory"
	"steeltally/inventory/inventorytest"
)

// desk is a station under test: a record in memory, written to by one writer. Deeds
// are given at a time, and what they come to is stamped and added as a book would.
type desk struct {
	inventory.Ledger
	t       *testing.T
	writer  inventory.Writer
	last    uint64             // this writer's latest sequence
	notices []inventory.Notice // of the last deed
}

// theNow is the instant at which every deed is given.
var theNow = inventorytest.Now()

// when reads a time of November 2025 ("4 09:00", "4 09:00:30") or whatever a person types.
func when(t *testing.T, text string) inventory.When {
	t.Helper()
	for _, layout := range []string{"2006-01 2 15:04", "2006-01 2 15:04:05"} {
		if at, err := time.Parse(layout, "2025-11 "+text); err == nil {
			return inventory.At(at)
		}
	}
	w, err := inventory.ParseWhen(text, time.UTC)
	if err != nil {
		t.Fatal(err)
	}
	return w
}

// at is the instant of a time of November 2025.
func at(t *testing.T, text string) time.Time {
	t.Helper()
	return when(t, text).Start
}

// try gives a deed at a time; what it comes to is added as one action.
func (d *desk) try(text string, deed Deed) ([]inventory.Event, error) {
	d.t.Helper()
	moment, err := NewMoment(when(d.t, text), theNow)
	if err != nil {
		return nil, err
	}
	outcome, err := deed.Decide(d, moment)
	if err != nil {
		return nil, err
	}
	d.notices = outcome.Notices
	return d.note(outcome.Drafts...), nil
}

// Writer is the one who writes here.
func (d *desk) Writer() inventory.Writer { return d.writer }

// note stamps drafts as one action and adds them.
func (d *desk) note(drafts ...inventory.Draft) []inventory.Event {
	logical := uint64(0)
	for _, e := range d.Events() {
		logical = max(logical, e.Logical)
	}
	var events []inventory.Event
	for i, draft := range drafts {
		d.last++
		events = append(events, inventory.Event{
			Key: inventory.Key{Writer: d.writer, Sequence: d.last}, Logical: logical + 1 + uint64(i), Happened: draft.Happened,
			Noted: theNow, Who: "ina", More: len(drafts) - 1 - i, Body: draft.Body,
		})
	}
	d.Add(events...)
	return events
}

// do gives a deed that must be accepted.
func (d *desk) do(text string, deed Deed) []inventory.Event {
	d.t.Helper()
	events, err := d.try(text, deed)
	if err != nil {
		d.t.Fatalf("%s: %T was refused: %v", text, deed, err)
	}
	return events
}

// refuses gives a deed that must be refused for a reason, and with what to do next.
func (d *desk) refuses(text string, deed Deed, reason string) {
	d.t.Helper()
	before := len(d.Events())
	_, err := d.try(text, deed)
	if err == nil {
		d.t.Fatalf("%s: %T was accepted, it should be refused: %s", text, deed, reason)
	}
	if !strings.Contains(err.Error(), reason) {
		d.t.Errorf("%s: %T was refused with %q, not %q", text, deed, err, reason)
	}
	if hintOf(err) == "" {
		d.t.Errorf("%s: %T: %q does not say what to do next", text, deed, err)
	}
	if len(d.Events()) != before {
		d.t.Errorf("%s: %T was refused and yet recorded", text, deed)
	}
}

// hintOf is what an error says to do next.
func hintOf(err error) string {
	var refusal *inventory.Refusal
	var value *inventory.BadValue
	var ambiguous *inventory.Ambiguous
	var number *inventory.NotANumber
	switch {
	case errors.As(err, &refusal):
		return refusal.Hint
	case errors.As(err, &value):
		return value.Hint + value.Reason // a list of words is its own hint
	case errors.As(err, &ambiguous):
		return ambiguous.Error()
	case errors.As(err, &number):
		return number.Reason
	}
	return ""
}

// told checks that the last deed told a person something.
func (d *desk) told(what string) {
	d.t.Helper()
	for _, notice := range d.notices {
		if strings.Contains(notice.Text+" / "+notice.Hint, what) {
			return
		}
	}
	d.t.Errorf("nobody was told %q, but %q", what, d.notices)
}

// quiet checks that the last deed told nothing.
func (d *desk) quiet() {
	d.t.Helper()
	if len(d.notices) != 0 {
		d.t.Errorf("told for nothing: %q", d.notices)
	}
}

// merge takes over the other station's events, and gives it this one's.
func (d *desk) merge(other *desk) {
	for _, e := range other.Events() {
		d.Add(*e)
	}
	for _, e := range d.Events() {
		other.Add(*e)
	}
}

// second is another station that has this record until now.
func (d *desk) second() *desk {
	other := &desk{t: d.t, writer: inventorytest.SecondWriter}
	for _, e := range d.Events() {
		other.Add(*e)
	}
	return other
}

// flags lists what the record is unsure of about a piece or player.
func (d *desk) flags(n inventory.Number) []string {
	flagged, ok := d.Entity(inventory.RefOf(n)).(interface{ Flags() []inventory.Flag })
	if !ok {
		return nil
	}
	var said []string
	for _, flag := range flagged.Flags() {
		said = append(said, flag.What)
	}
	return said
}

// flagged checks that exactly one flag stands on a piece, and what it says.
func (d *desk) flagged(n inventory.Number, what string) {
	d.t.Helper()
	if flags := d.flags(n); len(flags) != 1 || !strings.Contains(flags[0], what) {
		d.t.Errorf("%s: flags %q, want one with %q", n.Short(), flags, what)
	}
}

// unflagged checks that nothing in the record waits for a person.
func (d *desk) unflagged() {
	d.t.Helper()
	for ref := range d.States() {
		if flags := d.flags(ref.Number()); len(flags) != 0 {
			d.t.Errorf("%s: flagged for nothing: %q", ref.Number().Short(), flags)
		}
	}
}

// given is the number that the last of some events gave.
func given(t *testing.T, events []inventory.Event) inventory.Number {
	t.Helper()
	switch b := events[len(events)-1].Body.(type) {
	case *inventory.PlayerNoted:
		return b.Player
	case *inventory.PairNoted:
		return b.Pair
	case *inventory.StockedIn:
		return b.Pieces[0]
	case *inventory.SetMade:
		return b.Set
	}
	t.Fatalf("%T gives no number", events[0].Body)
	return 0
}

// millimetre is short for tables.
type millimetre = geometry.Millimetre

func mm(value float64) *millimetre {
	l := millimetre(value)
	return &l
}

func passes(left, right int) inventory.Both[int] {
	return inventory.Both[int]{Left: &left, Right: &right}
}

func (d *desk) runner(n inventory.Number) *inventory.Runner {
	return d.Entity(inventory.RefOf(n)).(*inventory.Runner)
}
func (d *desk) holder(n inventory.Number) *inventory.Holder {
	return d.Entity(inventory.RefOf(n)).(*inventory.Holder)
}
func (d *desk) set(n inventory.Number) *inventory.Set {
	return d.Entity(inventory.RefOf(n)).(*inventory.Set)
}
func (d *desk) pairOf(n inventory.Number) *inventory.Pair {
	return d.Entity(inventory.RefOf(n)).(*inventory.Pair)
}
func (d *desk) player(n inventory.Number) *inventory.Player {
	return d.Entity(inventory.RefOf(n)).(*inventory.Player)
}
