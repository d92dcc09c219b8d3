package desk

import (
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
)

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
