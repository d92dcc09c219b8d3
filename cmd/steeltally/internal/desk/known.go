package desk

import (
	"errors"
	"fmt"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
)

// stamp is what the book notes of an action besides what was decided.
func (d *Desk) stamp(now time.Time) book.Stamp {
	return book.Stamp{Who: d.options.Who, Noted: now, Ticket: d.options.Ticket, Asked: d.options.Asked}
}

// record carries out one action in the book, under the caller's own key.
func (d *Desk) record(now time.Time, decide book.Decide) ([]inventory.Event, error) {
	events, err := d.book.Record(d.stamp(now), decide)
	if len(events) > 0 {
		d.options.stands(isRecorded)
	}
	return events, err
}

// isRecorded says that what was done can be looked up.
const isRecorded = "what was done is recorded: steeltally history shows it"

// stands tells the caller what was done, which stays even where nothing can be said of it.
func (o Options) stands(format string, args ...any) {
	if o.Stands != nil {
		o.Stands(fmt.Sprintf(format, args...))
	}
}

// given are the entries that were recorded with the caller's own key; none where it is new
// or there is none.
func (d *Desk) given() ([]inventory.Event, error) {
	if d.options.Ticket == "" {
		return nil, nil
	}
	return d.book.Known(d.options.Ticket)
}

// Known is what the action with the caller's own key came to, where it was recorded
// before: after an error that left it open, a retry asks nothing a second time.
func (d *Desk) Known() (Done, bool, error) {
	events, err := d.given()
	if err != nil || len(events) == 0 {
		return Done{}, false, err
	}
	events, doubt := apart(events)
	if events[0].Asked != d.options.Asked {
		return Done{}, false, d.sayOther(&book.TicketError{Ticket: d.options.Ticket, Recorded: events})
	}
	done := Done{Events: events, Doubt: doubt}
	if done.Lines, err = d.linesOf(events); err != nil {
		return done, true, err
	}
	done.Back, err = d.takenBack(events)
	return done, true, err
}

// Again is what came of the same action, where it was recorded with the caller's key
// before. Another action with that key is told apart when it is recorded.
func (d *Desk) Again() (Done, bool, error) {
	events, err := d.given()
	if err != nil || len(events) == 0 || events[0].Asked != d.options.Asked {
		return Done{}, false, err
	}
	done, err := d.repeated(events)
	return done, true, err
}

// repeated tells what an action came to that was given again with the caller's key, and
// that it was taken back since.
func (d *Desk) repeated(events []inventory.Event) (done Done, err error) {
	d.options.stands(isRecorded)
	events, doubt := apart(events)
	done = Done{Events: events, Repeated: true, Doubt: doubt}
	done.Notices = append(done.Notices, inventory.Notice{
		Text: fmt.Sprintf("key %q was given before: this is what was recorded then, and nothing was added", d.options.Ticket),
		Hint: "a new entry needs a key of its own",
	})
	for i := range events {
		entry, err := d.book.Find(events[i].Key)
		if err != nil {
			return done, err
		}
		if entry.VoidedBy != nil {
			done.Notices = append(done.Notices, inventory.Notice{
				Text: fmt.Sprintf("it was taken back since: entry %s by %s", events[i].Key, entry.VoidedBy),
				Hint: "to enter it again give another key; to have it back: steeltally undo " + entry.VoidedBy.String(),
			})
			break
		}
	}
	done.Notices = append(done.Notices, d.LowRoom()...)
	if done.Lines, err = d.linesOf(events); err == nil {
		done.Back, err = d.takenBack(events)
	}
	return done, err
}

// sayOther says what a caller's key stands for already, where it was given with another
// action.
func (d *Desk) sayOther(err error) error {
	var other *book.TicketError
	if !errors.As(err, &other) {
		return err
	}
	recorded, _ := apart(other.Recorded)
	lines, linesErr := d.linesOf(recorded)
	if linesErr != nil {
		return errors.Join(err, linesErr)
	}
	first := &other.Recorded[0]
	return inventory.Refuse(fmt.Sprintf("key %q stands for another entry: %s (%s, %s)", other.Ticket, strings.Join(lines, "; "), first.Key, first.Happened.Say(d.zone)),
		"nothing was recorded: its time, its order or its words are others; give each entry a key of its own")
}

// For is the same open book for another caller's key, so that several can use it at once.
func (d *Desk) For(ticket, who string) *Desk {
	other := &Desk{options: d.options, book: d.book, zone: d.zone, moment: d.moment, trusted: d.trusted}
	other.options.Ticket, other.options.Who = ticket, who
	if ticket == "" {
		other.options.Asked = "" // it is what a key is given with
	}
	return other
}

// Asking is the same open book for what a caller's key is given with: a fingerprint.
// Without a key there is none.
func (d *Desk) Asking(asked string) *Desk {
	other := d.For(d.options.Ticket, d.options.Who)
	if d.options.Ticket != "" {
		other.options.Asked = asked
	}
	return other
}

// With is the same open book with another key of the caller's, and what it is given with.
func (d *Desk) With(ticket, asked string) *Desk { return d.For(ticket, d.options.Who).Asking(asked) }

// Wanted tells whether another program waits for the book.
func (d *Desk) Wanted() bool { return d.book.Wanted() }

// Mark is something that changes whenever a book's record grows, read without opening it.
func Mark(o Options) string { return book.Mark(o.Book) }

// Aside is the same open book for what is recorded beside the action that the caller's
// key stands for.
func (d *Desk) Aside(what string) *Desk {
	if d.options.Ticket == "" {
		return d
	}
	return d.For(d.options.Ticket+"/"+what, d.options.Who)
}

// Happened is the same open book for what happened earlier than it is told; the zero
// time changes nothing.
func (d *Desk) Happened(at time.Time) *Desk {
	if at.IsZero() {
		return d
	}
	other := d.For(d.options.Ticket, d.options.Who)
	other.moment = inventory.At(at)
	other.options.At = at.UTC().Format(time.RFC3339)
	return other
}
