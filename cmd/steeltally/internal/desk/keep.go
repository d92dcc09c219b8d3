package desk

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
)

// Rebuilt is what came back of a book, and what to know of it.
type Rebuilt struct {
	book.Rebuilt
	Notices []inventory.Notice `json:"notices,omitempty"`
}

// Backup writes the book to one file, checked before it takes an older one's place, and
// tells how many entries are in it.
func (d *Desk) Backup(path string) (uint64, error) {
	if path == "-" {
		return 0, inventory.RefuseValue("a backup is read again after it was written, and the standard output can't be", "name a file")
	}
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return 0, inventory.RefuseValue(fmt.Sprintf("%s is a folder", path), "name the file in it, such as "+filepath.Join(path, "book.zip"))
	}
	folder := filepath.Dir(path)
	if _, err := os.Stat(folder); errors.Is(err, fs.ErrNotExist) {
		return 0, inventory.RefuseValue(fmt.Sprintf("there is no folder %s", folder), "make it first, or name another")
	}
	events, err := d.book.Backup(path)
	if err == nil {
		d.options.stands("the backup is made and was read again: %s", path)
	}
	return events, err
}

// Rebuild makes a book of what is intact of another: its folder, a backup, or a file
// that export wrote. It goes into the folder of the options.
func Rebuild(o Options, from string) (Rebuilt, error) {
	into := o.Book
	rebuilt, err := book.Rebuild(into, from, Program)
	if err != nil {
		return Rebuilt{Rebuilt: rebuilt}, err
	}
	o.stands("the book is made: it is in %s", into)
	d, err := OpenToRead(Options{Book: into, Now: time.Now})
	if err != nil {
		return Rebuilt{Rebuilt: rebuilt}, err
	}
	club, err := d.Club()
	station := inventory.Notice{Hint: fmt.Sprintf("steeltally club --book %q --station DIGIT, the old one's where that is gone", into)}
	if club.Station == nil {
		station.Text = fmt.Sprintf("stations %s gave numbers in the old book: say which one the new book is", inventory.SayDigits(club.Digits))
	} else {
		station.Text = fmt.Sprintf("it gives numbers as station %d, and so does the old book; what the old one gave since this copy of it comes again", *club.Station)
	}
	unsafe := d.unsafeAsides()
	return Rebuilt{rebuilt, append(unsafe.notices(), station)}, errors.Join(err, unsafe.unread, d.Close())
}
