package inventory

import (
	"fmt"
	"slices"
	"strconv"
	"time"
)

// PlayerNoted adds a player, or changes a name, position or sweater from a day on.
type PlayerNoted struct {
	Player   Number `json:"player"`
	Name     string `json:"name"`
	Position string `json:"position,omitempty"`
	Sweater  int    `json:"sweater,omitempty"` // 0: none, as in camp
	Gone     bool   `json:"gone,omitempty"`    // left the club
}

// Kind is the word in the record.
func (*PlayerNoted) Kind() string { return "player" }

// wears is the sweater number from then on: who left the club wears none.
func (b *PlayerNoted) wears() int {
	if b.Gone {
		return 0
	}
	return b.Sweater
}

// Touches names the player, and the roster.
func (b *PlayerNoted) Touches() []Ref {
	return append(numbered(b.Player), RosterRef, CounterOf(b.Player))
}

func (b *PlayerNoted) line(Teller, *Event) string {
	line := "player " + b.Name + ", " + b.Position
	if b.Sweater != 0 {
		line += fmt.Sprintf(", sweater %d", b.Sweater)
	}
	if b.Gone {
		line += ", left the club"
	}
	return line
}

// Player is the folded state of one player.
type Player struct {
	Number Number `json:"number"`
	Marks
	Crises   Timeline[Crisis]   `json:"emergencies,omitempty"`
	Calls    Timeline[CalledUp] `json:"callups,omitempty"`
	Name     string             `json:"name"`
	Position string             `json:"position"`
	Gone     bool               `json:"gone,omitempty"`
	Sweaters Timeline[int]      `json:"sweaters"`
	Specs    Timeline[Specs]    `json:"specs,omitempty"`
	Pairs    []Number           `json:"pairs,omitempty"`
	Sets     []Lettered         `json:"sets,omitempty"`
	Used     Timeline[Number]   `json:"used,omitempty"`   // sets, each at its first use
	Done     Timeline[Number]   `json:"done,omitempty"`   // sets of which a runner came off for good
	Grinds   Timeline[Number]   `json:"grinds,omitempty"` // sets, the latest grinds only
	Refusals Timeline[Refused]  `json:"refusals,omitempty"`
	Named    Key                `json:"named,omitzero"`  // what said the name
	Twice    *NamedTwice        `json:"twice,omitempty"` // another station calls the player differently
}

// NamedTwice is that two stations gave one number to players of different names.
type NamedTwice struct {
	First  Key    `json:"first"`
	Second Key    `json:"second"`
	Name   string `json:"name"`
	Other  string `json:"other"`
}

// Lettered is a set with its letter and its runners.
type Lettered struct {
	Set    Number `json:"set"`
	Letter string `json:"letter"`
	Left   Number `json:"left"`
	Right  Number `json:"right"`
}

// keptGrinds is how many of a player's latest grinds are at hand without reading the
// record: enough for a week of several grinds a day.
const keptGrinds = 40

// Apply folds one event.
func (p *Player) Apply(e *Event) {
	p.notice(e)
	switch b := e.Body.(type) {
	case *PlayerNoted:
		if p.Name == "" {
			p.Sweaters = nil // only known from tags
		}
		if p.Name != "" && p.Name != b.Name && p.Named.Writer != e.Writer {
			p.Twice = &NamedTwice{p.Named, e.Key, p.Name, b.Name}
		}
		p.Name, p.Position, p.Gone, p.Named = b.Name, b.Position, b.Gone, e.Key
		p.Sweaters.add(e, b.wears())
	case *SpecsNoted:
		p.Specs.add(e, Specs{b.Hollow, b.Profile, b.Pitch, b.Passes, b.ChangeHeight})
	case *PairNoted:
		if !slices.Contains(p.Pairs, b.Pair) {
			p.Pairs = append(p.Pairs, b.Pair)
		}
	case *SetMade:
		p.match(b)
	case *PutIn:
		p.use(e, b.Set)
		p.revive(e, b.Set)
	case *TakenOut:
		p.finish(e, b)
	case *Ground:
		p.Grinds.add(e, b.Set)
		if len(p.Grinds) > keptGrinds {
			p.Grinds = p.Grinds[1:]
		}
	case *Refused:
		p.Refusals.add(e, *b)
	case *KnownFromTag:
		if p.Name == "" {
			wears(&p.Sweaters, e, b.Sweater)
		}
	case *Emergency:
		p.call(e, b)
	case *EmergencyDone:
		if crisis := p.crisis(b.Emergency); crisis != nil {
			crisis.Done = &Dated[EmergencyDone]{e.Happened, e.Key, *b}
		}
	case *EmergencyClosed:
		if crisis := p.crisis(b.Emergency); crisis != nil {
			crisis.Closed = &Dated[string]{e.Happened, e.Key, b.Note}
		}
	case *CalledUp:
		p.Calls.add(e, *b)
	default:
		p.Marks.apply(p.Number, e)
	}
}

// match notes a set; one whose sides were swapped keeps its place.
func (p *Player) match(b *SetMade) {
	if b.Player != p.Number {
		return
	}
	for i, known := range p.Sets {
		if known.Set == b.Set && known.Letter == b.Letter {
			p.Sets[i].Left, p.Sets[i].Right = b.Left, b.Right
			return
		}
	}
	p.Sets = append(p.Sets, Lettered{b.Set, b.Letter, b.Left, b.Right})
}

// finish notes a set that is done with.
func (p *Player) finish(e *Event, b *TakenOut) {
	for _, removal := range b.Each {
		if removal.Retired && b.Set != 0 {
			p.Done.add(e, b.Set)
			return
		}
	}
}

// revive takes back that a set is done with, where it is used again.
func (p *Player) revive(e *Event, set Number) {
	p.Done = slices.DeleteFunc(p.Done, func(d Dated[Number]) bool { return d.Value == set && !d.When.Start.After(e.Happened.Start) })
}

// use notes a set at its first use, whatever the order in which that was noted.
func (p *Player) use(e *Event, set Number) {
	at := slices.IndexFunc(p.Used, func(u Dated[Number]) bool { return u.Value == set })
	if set == 0 || at >= 0 && !e.Happened.Start.Before(p.Used[at].When.Start) {
		return
	}
	if at >= 0 {
		p.Used = slices.Delete(p.Used, at, at+1)
	}
	p.Used.add(e, set)
}

// Sweater is the number that the player wears at an instant; 0 is none.
func (p *Player) Sweater(at time.Time) int {
	sweater, _ := p.Sweaters.At(at)
	return sweater
}

// Goalkeeper tells whether the player's steel is a goalkeeper's.
func (p *Player) Goalkeeper() bool { return p.Position == "goalkeeper" }

// SetLettered is the player's latest set with a letter, or zero.
func (p *Player) SetLettered(letter string) Number {
	for _, set := range slices.Backward(p.Sets) {
		if set.Letter == letter {
			return set.Set
		}
	}
	return 0
}

// GroundSince tells whether the player's steel was ground in [since, until].
func (p *Player) GroundSince(since, until time.Time) bool {
	grinds := p.Grinds.Until(until)
	return len(grinds) > 0 && !grinds[len(grinds)-1].When.Start.Before(since)
}

// Flags lists what the record is unsure of about this player.
func (p *Player) Flags() []Flag {
	flags := p.foreignFlags(p.Number)
	if t := p.Twice; t != nil {
		flags = append(flags, p.conflict(p.Number, t.First, t.Second, "two stations call this player differently, "+t.Name+" and "+t.Other+": if they are two, add one of them anew")...)
	}
	return flags
}

// Entered tells whether the player was added.
func (p *Player) Entered() bool { return len(p.Sweaters) > 0 }

// wears notes a sweater that a tag says was worn, unless that is known already.
func wears(line *Timeline[int], e *Event, sweater int) {
	if worn, known := line.At(e.Happened.Start); !known || worn != sweater {
		line.add(e, sweater)
	}
}

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

// Typed is how a player is named on a command line: by sweater where only he wears it, else
// by number.
func Typed(v View, player *Player, at time.Time) string {
	if sweater := player.Sweater(at); sweater != 0 && len(RosterOf(v).Wearing(sweater, at)) == 1 {
		return strconv.Itoa(sweater)
	}
	return player.Number.Short()
}

// Typed is how the player is named on a command line: by sweater, else by number.
func (p *Player) Typed(at time.Time) string {
	if sweater := p.Sweater(at); sweater != 0 {
		return strconv.Itoa(sweater)
	}
	return p.Number.Short()
}
