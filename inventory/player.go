package inventory

import (
	"slices"
	"strconv"
	"time"

	"steeltally/geometry"
)

// Player is the folded state of one player.
type Player struct {
	Number Number `json:"number"`
	Marks
	PlayerTravel
	Name     string            `json:"name"`
	Position string            `json:"position"`
	Gone     bool              `json:"gone,omitempty"`
	Sweaters Timeline[int]     `json:"sweaters"`
	Specs    Timeline[Specs]   `json:"specs,omitempty"`
	Pairs    []Number          `json:"pairs,omitempty"`
	Sets     []Lettered        `json:"sets,omitempty"`
	Used     Timeline[Number]  `json:"used,omitempty"`   // sets, each at its first use
	Done     Timeline[Number]  `json:"done,omitempty"`   // sets of which a runner came off for good
	Grinds   Timeline[Number]  `json:"grinds,omitempty"` // sets, the latest grinds only
	Refusals Timeline[Refused] `json:"refusals,omitempty"`
	Named    Key               `json:"named,omitzero"`  // what said the name
	Twice    *NamedTwice       `json:"twice,omitempty"` // another station calls the player differently
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

// Specs are how a player's steel shall be. What is nil or empty was never said.
type Specs struct {
	Hollow       *Cut                 `json:"hollow,omitempty"`
	Profile      Profile              `json:"profile_mm,omitempty"`
	Pitch        *geometry.Millimetre `json:"pitch_mm,omitempty"`
	Passes       *int                 `json:"passes,omitempty"`
	ChangeHeight *geometry.Millimetre `json:"change_height_mm,omitempty"`
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
	default:
		_ = p.PlayerTravel.apply(e) || p.Marks.apply(p.Number, e)
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

// SpecsAt are the specs that hold at an instant: the latest word on each.
func (p *Player) SpecsAt(at time.Time) Specs {
	var now Specs
	for _, entry := range p.Specs.Until(at) {
		now.take(entry.Value)
	}
	return now
}

// take takes over what newer specs say.
func (s *Specs) take(newer Specs) {
	s.Hollow = newerOf(s.Hollow, newer.Hollow)
	s.Pitch = newerOf(s.Pitch, newer.Pitch)
	s.Passes = newerOf(s.Passes, newer.Passes)
	s.ChangeHeight = newerOf(s.ChangeHeight, newer.ChangeHeight)
	if len(newer.Profile) > 0 {
		s.Profile = newer.Profile
	}
}

func newerOf[T any](old, newer *T) *T {
	if newer != nil {
		return newer
	}
	return old
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

// RefusalOf is the player's last no about a set that he had said at an instant.
func (p *Player) RefusalOf(set Number, at time.Time) (Dated[Refused], bool) {
	refusals := p.Refusals.Until(at)
	for i := len(refusals) - 1; i >= 0; i-- {
		if refusals[i].Value.Set == set {
			return refusals[i], true
		}
	}
	return Dated[Refused]{}, false
}

// Typed is how the player is named on a command line: by sweater, else by number.
func (p *Player) Typed(at time.Time) string {
	if sweater := p.Sweater(at); sweater != 0 {
		return strconv.Itoa(sweater)
	}
	return p.Number.Short()
}
