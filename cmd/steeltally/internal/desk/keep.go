package desk

import (
	"steeltally/inventory/book"
)

// Rebuilt is what came back of a book.
type Rebuilt = book.Rebuilt

// Merged is what was taken in from another book.
type Merged = book.Merged

// Backup writes the book to one file, checked before it takes an older one's place, and
// tells how many entries are in it.
func (d *Desk) Backup(path string) (uint64, error) { return d.book.Backup(path) }

// Rebuild makes a book of what is intact of another: its folder, a backup, or a file
// that export wrote.
func Rebuild(into, from string) (Rebuilt, error) { return book.Rebuild(into, from, Program) }

// Merge takes in what another book, a backup or an export knows.
func (d *Desk) Merge(from string) (Merged, error) { return d.book.Merge(from, Program) }
