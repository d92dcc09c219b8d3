package inventory

import (
	"slices"
	"time"
)

// Club is what the book belongs to, with the list of its players.
type Club struct {
	Name     string  `json:"name"`
	Zone     string  `json:"zone"`
	Stations []Digit `json:"stations"`
	Foreign  []Key   `json:"foreign,omitempty"` // events that this version can't read and that name no piece
}

// Digit is the station digit of one writer.
type Digit struct {
	Writer  Writer `json:"writer"`
	Station int    `json:"station"`
}

// found takes over what is said of the club. A merged book has had several stations:
// each writer keeps its own digit.
func (c *Club) found(e *Event, b *ClubNoted) {
	c.Name, c.Zone = b.Name, b.Zone
	at := slices.IndexFunc(c.Stations, func(d Digit) bool { return d.Writer == e.Writer })
	if at < 0 {
		c.Stations = append(c.Stations, Digit{e.Writer, b.Station})
		return
	}
	c.Stations[at].Station = b.Station
}

// StationOf is the digit of the numbers that a writer gives: its own, or, for a copied
// or rebuilt book, that of the book it came from.
func (c *Club) StationOf(w Writer) int {
	for _, d := range c.Stations {
		if d.Writer == w {
			return d.Station
		}
	}
	if len(c.Stations) > 0 {
		return c.Stations[0].Station
	}
	return 0
}

// Apply folds one event.
func (c *Club) Apply(e *Event) {
	switch b := e.Body.(type) {
	case *ClubNoted:
		c.found(e, b)
	case *Foreign:
		c.Foreign = append(c.Foreign, e.Key)
	}
}

// Flags lists what the record is unsure of about no piece; their About is zero.
func (c *Club) Flags() []Flag { return flagForeign(0, c.Foreign) }

// Location is the club's time zone; one that this machine does not know is UTC.
func (c *Club) Location() *time.Location {
	zone, err := time.LoadLocation(c.Zone)
	if err != nil {
		return time.UTC
	}
	return zone
}
