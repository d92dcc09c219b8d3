package inventory

import (
	"slices"
	"time"
)

// Club is what the book belongs to, with the list of its players.
type Club struct {
	Name     string   `json:"name"`
	Zone     string   `json:"zone"`
	Stations []Digit  `json:"stations"`
	Players  []Member `json:"players,omitempty"`
	Foreign  []Key    `json:"foreign,omitempty"` // events that this version can't read and that name no piece
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

// Member is a player in the club's list: enough to find one by name or sweater.
type Member struct {
	Player   Number         `json:"player"`
	Name     string         `json:"name"`
	Sweaters Timeline[int]  `json:"sweaters"` // 0: none, as in camp
	Gone     bool           `json:"gone,omitempty"`
	Leaves   Timeline[bool] `json:"leaves,omitempty"` // true: left the club, false: came back
}

// GoneAt tells whether the player had left the club at an instant.
func (m *Member) GoneAt(at time.Time) bool {
	gone, _ := m.Leaves.At(at)
	return gone
}

// Apply folds one event.
func (c *Club) Apply(e *Event) {
	switch b := e.Body.(type) {
	case *ClubNoted:
		c.found(e, b)
	case *PlayerNoted:
		m := c.member(b.Player)
		if m.Name == "" {
			m.Sweaters = nil // only known from tags
		}
		m.Name, m.Gone = b.Name, b.Gone
		m.Sweaters.add(e, b.wears())
		if b.Gone || len(m.Leaves) > 0 {
			m.Leaves.add(e, b.Gone)
		}
	case *KnownFromTag:
		if m := c.member(b.Player); m.Name == "" {
			wears(&m.Sweaters, e, b.Sweater)
		}
	case *Foreign:
		c.Foreign = append(c.Foreign, e.Key)
	}
}

// Flags lists what the record is unsure of about no piece; their About is zero.
func (c *Club) Flags() []Flag { return flagForeign(0, c.Foreign) }

func (c *Club) member(n Number) *Member {
	at, found := slices.BinarySearchFunc(c.Players, n, func(m Member, n Number) int { return int(m.Player) - int(n) })
	if !found {
		c.Players = slices.Insert(c.Players, at, Member{Player: n})
	}
	return &c.Players[at]
}

// Location is the club's time zone; one that this machine does not know is UTC.
func (c *Club) Location() *time.Location {
	zone, err := time.LoadLocation(c.Zone)
	if err != nil {
		return time.UTC
	}
	return zone
}

// Wearing lists the players who wear a sweater number at an instant.
func (c *Club) Wearing(sweater int, at time.Time) []Member {
	var wearing []Member
	for _, m := range c.Players {
		if worn, ok := m.Sweaters.At(at); ok && worn == sweater {
			wearing = append(wearing, m)
		}
	}
	return wearing
}
