package desk

import (
	"fmt"

	"steeltally/inventory"
	"steeltally/inventory/book"
)

// LowRoom warns, once while the book is open, that the disk it is on is all but full:
// less than 200 MB are free. Where that cannot be told it says nothing.
func (d *Desk) LowRoom() []inventory.Notice {
	room := d.options.Room
	if room == nil {
		room = book.Room
	}
	free, err := room(d.options.Book)
	if err != nil || free >= book.LowRoom || d.warned.Swap(true) {
		return nil
	}
	return []inventory.Notice{{
		Text: fmt.Sprintf("only %d MB are free on the disk that the book is on", free/1_000_000),
		Hint: "make room soon: on a full disk nothing more can be recorded",
	}}
}
