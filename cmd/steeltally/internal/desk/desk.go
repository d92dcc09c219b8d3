// Package desk carries a person's action through: from what was typed or scanned, by
// way of a decision, to the record and the tags. It is the only place that knows both
// the inventory and the labels.
package desk

import (
	"context"
	"errors"
	"io"
	"path/filepath"
	"sync"
	"sync/atomic"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/deeds"
	"steeltally/inventory/standing"
)

// Program is how a book in use is said to be held.
const Program = "steeltally"

// Options say which book is worked on, by whom, and at what time.
type Options struct {
	Book    string           // the book's folder
	Who     string           // who writes it down
	At      string           // the time it happened, as typed; empty is now
	Ticket  string           // the caller's own key, so that a retry is recorded once
	Asked   string           // a fingerprint of what is asked with that key; empty: not known
	Now     func() time.Time // the clock
	Machine string           // the file with this machine's printers and part-used sheets; empty: none
	Stdin   io.Reader        // what "-" stands for as a file to read; nil: nothing
	Stdout  io.Writer        // and as a file to write

	Known *Known // what was learnt of wear already, and is kept for who asks next; nil: nothing

	Room   func(dir string) (free uint64, err error) // free bytes on the disk; nil asks the system
	Until  context.Context                           // whose end breaks off what waits for a printer; nil: nothing does
	Stands func(what string)                         // told what was done as soon as it stands on a disk; nil: nobody asks
}

// Desk is an open book with a person before it.
type Desk struct {
	options Options
	book    *book.Book
	zone    *time.Location
	moment  inventory.When // zero: now, whenever that is
	warned  atomic.Bool    // that the disk is all but full
	trusted time.Time      // what the clock said when a person said that it is right; zero: nobody did

	unsafe *Unsafe // what was looked up of numbers that were shown

	toTell  []inventory.Notice // once, with what is done first
	telling sync.Once
}

// Open opens the book for writing.
func Open(o Options) (*Desk, error) { return open(o, false) }

// OpenToRead opens the book beside others that read it.
func OpenToRead(o Options) (*Desk, error) { return open(o, true) }

func open(o Options, readOnly bool) (*Desk, error) {
	b, err := book.Open(o.Book, book.Options{ReadOnly: readOnly, Program: Program, Marks: o.marks()})
	if err != nil {
		return nil, err
	}
	if o.Known == nil {
		o.Known = new(Known)
	}
	d := &Desk{options: o, book: b}
	err = d.begin()
	if err == nil && !readOnly {
		err = d.afterSetback()
	}
	if err != nil {
		d.Close()
		return nil, err
	}
	return d, nil
}

// marks is the folder beside this machine's settings that keeps how far its books have
// come; empty: none.
func (o Options) marks() string {
	if o.Machine == "" {
		return ""
	}
	return filepath.Join(filepath.Dir(o.Machine), "books")
}

// begin reads the club's time zone and with it the time that is meant.
func (d *Desk) begin() error {
	err := d.book.Read(func(v inventory.View) error {
		d.zone = inventory.ClubOf(v).Location()
		return nil
	})
	if err != nil || d.options.At == "" {
		return err
	}
	d.moment, err = inventory.ParseWhen(d.options.At, d.zone)
	if err != nil {
		return &inventory.BadValue{Reason: err.Error()}
	}
	return nil
}

// Close lets go of the book.
func (d *Desk) Close() error { return d.book.Close() }

// Zone is the club's time zone.
func (d *Desk) Zone() *time.Location { return d.zone }

// Moment is the time that the action is about.
func (d *Desk) Moment() (deeds.Moment, error) {
	now := d.options.Now()
	happened := d.moment
	if d.options.At == "" {
		happened = inventory.At(now)
	}
	return deeds.NewMoment(happened, now.In(d.zone))
}

// Instant is the instant that a question is asked about.
func (d *Desk) Instant() time.Time {
	if d.options.At == "" || d.moment.Unknown() {
		return d.options.Now()
	}
	return d.moment.Start
}

// Done is what an action came to.
type Done struct {
	Events   []inventory.Event
	Lines    []string // what was recorded, in words
	Back     []string // what was taken back, in words
	Notices  []inventory.Notice
	Left     []inventory.Unworked // who was meant, too, and why nothing was recorded for him
	Doubt    *ClockDoubt          // of the clock by which it is dated
	Repeated bool                 // an earlier action had the caller's key: this is what it recorded
}

// With adds what was noticed later.
func (d Done) With(notices []inventory.Notice) Done {
	d.Notices = append(d.Notices, notices...)
	return d
}

// Keys are the numbers of the entries.
func (d Done) Keys() []inventory.Key {
	keys := make([]inventory.Key, len(d.Events))
	for i := range d.Events {
		keys[i] = d.Events[i].Key
	}
	return keys
}

// choose makes a deed of what was typed, looking at the record as it stands.
type choose func(v inventory.View, m deeds.Moment) (deeds.Deed, error)

// act decides and records one action. Either all of it is on disk when it returns
// without an error, or nothing was recorded.
func (d *Desk) act(choose choose) (Done, error) {
	m, err := d.Moment()
	if err != nil {
		return Done{}, err
	}
	before, err := d.given()
	if err != nil {
		return Done{}, err
	}
	var outcome deeds.Outcome
	decided := false
	events, err := d.record(m.Now, func(v inventory.View) ([]inventory.Draft, error) {
		decided = true
		deed, err := choose(v, m)
		if err != nil {
			return nil, err
		}
		outcome, err = deed.Decide(v, m)
		return append(outcome.Drafts, d.doubted(v, outcome.Drafts, m.Now)...), err
	})
	if d.narrowed(err) {
		return d.act(choose)
	}
	if err != nil {
		return Done{}, d.sayOther(err)
	}
	if len(before) > 0 || !decided {
		return d.repeated(events)
	}
	events, doubt := apart(events)
	done := Done{Events: events, Notices: outcome.Notices, Left: outcome.Left, Doubt: doubt}
	d.options.keepUnworked("the work", done.Left)
	if doubt != nil {
		done.Notices = append(done.Notices, d.doubtNotice(*doubt))
	}
	done.Notices = append(done.Notices, d.told()...)
	done.Notices = append(done.Notices, d.unsafeFor(events)...)
	done.Lines, err = d.linesOf(events)
	return done, err
}

// narrowed tells whether an action was refused for the first part of a vague time only;
// what is left of it is meant from now on.
func (d *Desk) narrowed(err error) bool {
	refused := new(inventory.NotYet)
	if !errors.As(err, &refused) {
		return false
	}
	left, reaches := d.moment.From(refused.Since)
	if reaches {
		d.moment = left
	}
	return reaches
}

// linesOf says in words what events recorded, and of whom where they do not say it.
func (d *Desk) linesOf(events []inventory.Event) ([]string, error) {
	lines := make([]string, len(events))
	err := d.book.Read(func(v inventory.View) error {
		teller := inventory.Teller{View: v}
		for i := range events {
			lines[i] = d.subject(v, events[i].Body) + teller.Line(&events[i])
		}
		return nil
	})
	return lines, err
}

// subject names the player whose steel was worked on or measured: "17 Ansgar Lindqvarn: ".
func (d *Desk) subject(v inventory.View, body inventory.Body) string {
	var player inventory.Number
	switch b := body.(type) {
	case *inventory.Ground:
		player = b.Player
	case *inventory.Measured:
		player = b.Player
	case *inventory.SpecsNoted:
		player = b.Player
	}
	p, err := inventory.PlayerOf(v, player)
	if player == 0 || err != nil {
		return ""
	}
	return heading(p, d.Instant()) + ": "
}

// do records a deed that needs nothing looked up.
func (d *Desk) do(deed deeds.Deed) (Done, error) {
	return d.act(func(inventory.View, deeds.Moment) (deeds.Deed, error) { return deed, nil })
}

// askNow looks at the record with what is known of the club's wear.
func (d *Desk) askNow(look func(*standing.Now) error) error {
	learnt, err := d.learnt(d.Instant())
	if err != nil {
		return err
	}
	return d.ask(func(v inventory.View, at time.Time) error { return look(standing.NewNow(v, at, learnt)) })
}

// lookAt is askNow about one piece: what is known of the club's wear is looked for only
// where its height rests on that.
func (d *Desk) lookAt(n inventory.Number, look func(*standing.Now) error) error {
	wears := false
	err := d.ask(func(v inventory.View, at time.Time) error {
		wears = n.Kind() == inventory.KindRunner && standing.Wears(v, n, at)
		return nil
	})
	switch {
	case err != nil:
		return err
	case wears:
		return d.askNow(look)
	}
	return d.ask(func(v inventory.View, at time.Time) error { return look(standing.NewNow(v, at, nil)) })
}

// ask looks at the record, in which what is set aside makes suspect.
func (d *Desk) ask(look func(v inventory.View, at time.Time) error) error {
	damages := d.unsafeAsides().damages()
	return d.book.Read(func(v inventory.View) error { return look(inventory.Suspecting(v, damages), d.Instant()) })
}
