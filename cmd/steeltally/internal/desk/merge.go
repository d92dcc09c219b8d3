package desk

import (
	"errors"
	"fmt"
	"slices"

	"steeltally/inventory"
	"steeltally/inventory/book"
)

// Merged is what was taken in from another book, and what to know of it.
type Merged struct {
	book.Merged
	Notices []inventory.Notice `json:"notices,omitempty"`
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
	if merged.Added+merged.SetAside > 0 {
		d.options.stands("what was taken in is recorded: steeltally history shows it")
	}
	after, err := d.stations()
	unsafe := d.unsafeAsides()
	notices := append(unsafe.notices(), before.against(after)...)
	if merged.PutBack {
		notices = append(notices, inventory.Notice{
			Text: "the other book knew more of what this folder itself had written: it was put back to an older copy, or another copy went on as this one; from now on it writes under an id of its own",
			Hint: "steeltally setaside shows what contradicts, if anything does",
		})
	}
	return Merged{merged, append(notices, d.told()...)}, errors.Join(err, unsafe.unread)
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
			break
		}
	}
	if more := after.flags - s.flags; more > 0 {
		notices = append(notices, inventory.Notice{
			Text: fmt.Sprintf("places where the record contradicts itself, or is unsure, since this merge: %d", more), Hint: "steeltally work shows them",
		})
	}
	return notices
}
