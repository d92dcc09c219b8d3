package desk

import "steeltally/inventory/book"

// For is the same open book for another caller's key, so that several can use it at once.
func (d *Desk) For(ticket, who string) *Desk {
	other := &Desk{options: d.options, book: d.book, zone: d.zone, moment: d.moment}
	other.options.Ticket, other.options.Who = ticket, who
	return other
}

// Mark is something that changes whenever a book's record grows, read without opening it.
func Mark(o Options) string { return book.Mark(o.Book) }
