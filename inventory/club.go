package inventory

import (
	"fmt"
	"slices"
	"strconv"
	"strings"
	"time"
)

// ClubNoted opens a book, or changes what is said of the club.
type ClubNoted struct {
	Name    string `json:"name"`
	Zone    string `json:"zone"` // IANA time zone
	Station int    `json:"station"`
}

// Kind is the word in the record.
func (*ClubNoted) Kind() string { return "club" }

// Touches names the club.
func (*ClubNoted) Touches() []Ref { return []Ref{ClubRef} }

func (b *ClubNoted) line(Teller, *Event) string {
	return fmt.Sprintf("book of %s, %s, station %d", b.Name, b.Zone, b.Station)
}

// Club is what the book belongs to, with the stations that wrote in it.
type Club struct {
	Name     string   `json:"name"`
	Zone     string   `json:"zone"`
	Names    []string `json:"names,omitempty"`   // that it ever had
	Stations []Digit  `json:"stations"`          // that writers ever had, the latest of each last
	Foreign  []Key    `json:"foreign,omitempty"` // events that this version can't read and that name no piece
}

// Digit is the station digit of one writer.
type Digit struct {
	Writer  Writer `json:"writer"`
	Station int    `json:"station"`
}

// found takes over what is said of the club. A merged book has had several stations:
// each writer keeps its own digit. A digit that was once given stays taken.
func (c *Club) found(e *Event, b *ClubNoted) {
	c.Name, c.Zone = b.Name, b.Zone
	if !c.Named(b.Name) {
		c.Names = append(c.Names, b.Name)
	}
	said := Digit{e.Writer, b.Station}
	c.Stations = append(slices.DeleteFunc(c.Stations, func(d Digit) bool { return d == said }), said)
}

// Named tells whether the club has or had a name.
func (c *Club) Named(name string) bool {
	return slices.ContainsFunc(c.Names, func(known string) bool { return SameName(known, name) })
}

// Station is where a folder's numbers come from.
type Station struct {
	Digit int
	Own   bool // it was said of this folder
	Known bool // else it could be any that is in the record
}

// StationOf is the station of a writer: its own, or, for a copied or rebuilt book, the one
// that all before it had. Where they had several it is not known: two folders would give
// the same number.
func (c *Club) StationOf(w Writer) Station {
	for _, d := range slices.Backward(c.Stations) {
		if d.Writer == w {
			return Station{d.Station, true, true}
		}
	}
	digits := c.Digits()
	if len(digits) == 0 {
		return Station{Known: true}
	}
	return Station{Digit: digits[0], Known: len(digits) == 1}
}

// Digits are the station digits that writers have, sorted.
func (c *Club) Digits() []int {
	var digits []int
	for _, d := range c.Stations {
		digits = append(digits, d.Station)
	}
	slices.Sort(digits)
	return slices.Compact(digits)
}

// SayDigits writes station digits: "1, 2".
func SayDigits(digits []int) string {
	words := make([]string, len(digits))
	for i, digit := range digits {
		words[i] = strconv.Itoa(digit)
	}
	return strings.Join(words, ", ")
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
