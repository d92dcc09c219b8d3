package desk

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
)

// Rebuilt is what came back of a book, and what to know of it.
type Rebuilt struct {
	book.Rebuilt
	Notices []inventory.Notice `json:"notices,omitempty"`
}

// Merged is what was taken in from another book, and what to know of it.
type Merged struct {
	book.Merged
	Notices []inventory.Notice `json:"notices,omitempty"`
}

// Backup writes the book to one file, checked before it takes an older one's place, and
// tells how many entries are in it.
func (d *Desk) Backup(path string) (uint64, error) {
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return 0, inventory.RefuseValue("name the file in it, such as "+filepath.Join(path, "book.zip"), "%s is a folder", path)
	}
	folder := filepath.Dir(path)
	if _, err := os.Stat(folder); errors.Is(err, fs.ErrNotExist) {
		return 0, inventory.RefuseValue("make it first, or name another", "there is no folder %s", folder)
	}
	return d.book.Backup(path)
}

// Rebuild makes a book of what is intact of another: its folder, a backup, or a file
// that export wrote.
func Rebuild(into, from string) (Rebuilt, error) {
	rebuilt, err := book.Rebuild(into, from, Program)
	if err != nil {
		return Rebuilt{Rebuilt: rebuilt}, err
	}
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
	return Rebuilt{rebuilt, []inventory.Notice{station}}, errors.Join(err, d.Close())
}

// Merge takes in what another book, a backup or an export knows; one of another club
// only where that is wanted.
func (d *Desk) Merge(from string, anyClub bool) (Merged, error) {
	before, err := d.stations()
	if err != nil {
		return Merged{}, err
	}
	merged, err := d.book.Merge(book.Other{From: from, Program: Program, AnyClub: anyClub})
	if err != nil {
		return Merged{Merged: merged}, err
	}
	after, err := d.stations()
	return Merged{merged, append(before.against(after), d.LowRoom()...)}, err
}

// stations is what is said of a club and of who writes in its book.
type stations struct {
	own inventory.Writer
	inventory.Club
	flags int // where the record contradicts itself
}

func (d *Desk) stations() (s stations, err error) {
	err = d.book.Read(func(v inventory.View) error {
		s = stations{v.Writer(), *inventory.ClubOf(v), len(inventory.Flags(v))}
		return nil
	})
	return s, err
}

// against says what a merge changed that every later entry goes by.
func (s stations) against(after stations) []inventory.Notice {
	var notices []inventory.Notice
	if s.Name != after.Name || s.Zone != after.Zone {
		notices = append(notices, inventory.Notice{
			Text: fmt.Sprintf("the book is now that of %s, %s; it was that of %s, %s", after.Name, after.Zone, s.Name, s.Zone),
			Hint: fmt.Sprintf("if that is wrong: steeltally club --name %q --zone %s", s.Name, s.Zone),
		})
	}
	station := s.StationOf(s.own)
	for _, other := range after.Stations {
		if station.Known && other.Station == station.Digit && other.Writer != s.own && !slices.Contains(s.Stations, other) {
			notices = append(notices, inventory.Notice{
				Text: fmt.Sprintf("the other book gives numbers as station %d, and so does this one: two pieces can get the same number", station.Digit),
				Hint: "give one of them another digit before either gives new numbers: steeltally club --station DIGIT",
			})
		}
	}
	if more := after.flags - s.flags; more > 0 {
		notices = append(notices, inventory.Notice{
			Text: fmt.Sprintf("places where the record contradicts itself, or is unsure, since this merge: %d", more), Hint: "steeltally work shows them",
		})
	}
	return notices
}
