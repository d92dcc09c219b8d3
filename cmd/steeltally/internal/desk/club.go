package desk

import (
	"cmp"
	"fmt"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/deeds"
)

// Init makes a book for a club.
func Init(o Options, club deeds.FoundClub) error {
	now := o.Now()
	happened := inventory.At(now)
	zone, err := zoneNamed(club.Zone)
	if err != nil {
		return err
	}
	if o.At != "" {
		if happened, err = inventory.ParseWhen(o.At, zone); err != nil {
			return &inventory.BadValue{Reason: err.Error()}
		}
	}
	m, err := deeds.NewMoment(happened, now)
	if err != nil {
		return err
	}
	outcome, err := club.Decide(&inventory.Ledger{}, m)
	if err != nil {
		return err
	}
	if err := book.Create(o.Book, book.Stamp{Who: o.Who, Noted: now}, outcome.Drafts); err != nil {
		return err
	}
	o.stands("the book is made: it is in %s", o.Book)
	return nil
}

func zoneNamed(name string) (*time.Location, error) {
	zone, err := time.LoadLocation(name)
	if err != nil || name == "" || name == "Local" { // the last two are no zone's name
		return nil, inventory.RefuseValue(fmt.Sprintf("time zone %s is not known", name), "write it as Europe/Oslo or America/Toronto")
	}
	return zone, nil
}

// Club is whose book it is, and which station's numbers this folder gives.
type Club struct {
	Name    string `json:"club"`
	Zone    string `json:"zone"`
	Station *int   `json:"station"` // nil: not known, in a copy of a book of several stations
	Digits  []int  `json:"digits"`  // of all folders that gave numbers in the record
}

// Club tells whose book it is.
func (d *Desk) Club() (said Club, err error) {
	err = d.book.Read(func(v inventory.View) error {
		club := inventory.ClubOf(v)
		said = Club{Name: club.Name, Zone: club.Zone, Digits: club.Digits()}
		if station := club.StationOf(v.Writer()); station.Known {
			said.Station = &station.Digit
		}
		return nil
	})
	return said, err
}

// KnownAs is what a club's record is known by to who comes again, and whether it is that of
// who was told so before. Every copy of the record has the writers that it began with.
func (d *Desk) KnownAs(before inventory.Writer) (now inventory.Writer, same bool, err error) {
	err = d.book.Read(func(v inventory.View) error {
		for _, digit := range inventory.ClubOf(v).Stations {
			now = cmp.Or(now, digit.Writer)
			same = same || digit.Writer == before
		}
		return nil
	})
	return now, same || before == "", err
}

// ChangeClub changes what is said of the club, or this folder's digit.
func (d *Desk) ChangeClub(change deeds.ChangeClub) (Done, error) {
	if change.Zone != nil {
		if _, err := zoneNamed(*change.Zone); err != nil {
			return Done{}, err
		}
	}
	return d.do(change)
}
