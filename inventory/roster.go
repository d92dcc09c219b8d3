package inventory

import (
	"slices"
	"strconv"
	"time"
)

// Roster lists everybody who ever played for the club. It is apart from the Club
// because it grows with the seasons, and most questions need none of it.
type Roster struct {
	Members []Member `json:"members,omitempty"` // in order of number
}

// Member is a player in the roster: enough to find one by name or sweater.
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
func (r *Roster) Apply(e *Event) {
	switch b := e.Body.(type) {
	case *PlayerNoted:
		m := r.member(b.Player)
		if m.Name == "" {
			m.Sweaters = nil // only known from tags
		}
		m.Name, m.Gone = b.Name, b.Gone
		m.Sweaters.add(e, b.wears())
		if b.Gone || len(m.Leaves) > 0 {
			m.Leaves.add(e, b.Gone)
		}
	case *KnownFromTag:
		if m := r.member(b.Player); m.Name == "" {
			wears(&m.Sweaters, e, b.Sweater)
		}
	}
}

func (r *Roster) member(n Number) *Member {
	at, found := slices.BinarySearchFunc(r.Members, n, func(m Member, n Number) int { return int(m.Player) - int(n) })
	if !found {
		r.Members = slices.Insert(r.Members, at, Member{Player: n})
	}
	return &r.Members[at]
}

// Wearing lists the players who wear a sweater number at an instant.
func (r *Roster) Wearing(sweater int, at time.Time) []Member {
	var wearing []Member
	for _, m := range r.Members {
		if worn, ok := m.Sweaters.At(at); ok && worn == sweater {
			wearing = append(wearing, m)
		}
	}
	return wearing
}

// WoreIn lists who wore a sweater at the start or at the end of a vague time.
func (r *Roster) WoreIn(sweater int, when When) []Number {
	var players []Number
	for _, at := range []time.Time{when.Start, when.End.Add(-time.Second)} {
		for _, member := range r.Wearing(sweater, at) {
			if !slices.Contains(players, member.Player) {
				players = append(players, member.Player)
			}
		}
	}
	return players
}

// WearsLater is somebody who took a sweater number after an instant, and when; or nil.
func (r *Roster) WearsLater(sweater int, at time.Time) (*Member, When) {
	for i, m := range r.Members {
		if since, ok := m.Sweaters.after(at, func(worn int) bool { return worn == sweater }); ok {
			return &r.Members[i], since
		}
	}
	return nil, When{}
}

// Typed is how the player is named on a command line: by sweater, else by number.
func (p *Player) Typed(at time.Time) string {
	if sweater := p.Sweater(at); sweater != 0 {
		return strconv.Itoa(sweater)
	}
	return p.Number.Short()
}
