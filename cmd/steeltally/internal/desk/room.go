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

// told says, once while the book is open, what was found when it was opened, and where this
// machine can't keep how far it has come.
func (d *Desk) told() []inventory.Notice {
	var notices []inventory.Notice
	d.telling.Do(func() {
		notices = d.toTell
		if err := d.book.Unmarked(); err != nil {
			notices = append(notices, inventory.Notice{
				Text: fmt.Sprintf("this machine can't keep how far the book has come (%v): if its folder is put back to an older copy, nobody will notice", err),
				Hint: "make the folder with this machine's settings yours to write",
			})
		}
	})
	return append(notices, d.LowRoom()...)
}
