package inventory

import (
	"fmt"
	"time"

	"steeltally/geometry"
)

// PairNoted gives a player a pair of boots, or a pair another role.
type PairNoted struct {
	Pair   Number `json:"pair"`
	Player Number `json:"player"`
	Role   Role   `json:"role"`
}

// Kind is the word in the record.
func (*PairNoted) Kind() string { return "pair" }

// Touches names the pair and its player.
func (b *PairNoted) Touches() []Ref {
	return append(numbered(b.Pair, b.Player), CounterOf(b.Pair))
}

func (b *PairNoted) line(t Teller, _ *Event) string {
	return fmt.Sprintf("pair %s is %s's %s pair", b.Pair.Short(), t.player(b.Player), b.Role)
}

// Pair is the folded state of one pair of boots with what hangs on them.
type Pair struct {
	Number Number `json:"number"`
	Marks
	Tries   Timeline[Try]                 `json:"tries,omitempty"`
	Skates  Timeline[Number]              `json:"skated,omitempty"` // sets that were skated on
	Pitches Timeline[geometry.Millimetre] `json:"pitches,omitempty"`
	Event   Key                           `json:"event"`
	Twice   *Key                          `json:"twice,omitempty"` // another player's pair under the same number
	Player  Number                        `json:"player"`
	Roles   Timeline[Role]                `json:"roles"`
	Left    Boot                          `json:"left"`
	Right   Boot                          `json:"right"`
}

// Boot is the boot of a side.
func (p *Pair) Boot(side Side) *Boot {
	if side == Right {
		return &p.Right
	}
	return &p.Left
}

// Apply folds one event.
func (p *Pair) Apply(e *Event) {
	p.notice(e)
	switch b := e.Body.(type) {
	case *PairNoted:
		p.note(e, b)
	case *Riveted:
		p.Boot(b.Side).rivet(e, b)
	case *PutIn:
		for side, fit := range b.Each {
			p.Boot(side).Runners.addWhere(e, Seat{Runner: fit.Runner, Holder: fit.Holder, Set: b.Set}, seatFollows)
		}
	case *TakenOut:
		for side, fit := range b.Each {
			p.Boot(side).Runners.addWhere(e, Seat{Taken: fit.Runner}, seatFollows)
		}
	case *Tried:
		p.Tries.add(e, Try{b.Declined, b.Note})
	case *Skated:
		p.Skates.add(e, b.Set)
	case *Pitched:
		p.Pitches.add(e, b.Pitch)
	default:
		p.Marks.apply(p.Number, e)
	}
}

// note keeps the first player; another one's pair under the same number is a conflict.
func (p *Pair) note(e *Event, b *PairNoted) {
	switch {
	case p.Event == Key{}:
		p.Event, p.Player = e.Key, b.Player
	case p.Player != b.Player:
		p.Twice = &e.Key
		return
	}
	p.Roles.add(e, b.Role)
}

// Role is what the pair is to its player at an instant.
func (p *Pair) Role(at time.Time) Role {
	role, _ := p.Roles.At(at)
	return role
}

// HolderAt is the holder on a side at an instant, or zero.
func (p *Pair) HolderAt(side Side, at time.Time) Number {
	holder, _ := p.Boot(side).Holders.At(at)
	return holder
}

// SeatAt is what is in the holder of a side at an instant.
func (p *Pair) SeatAt(side Side, at time.Time) Seat {
	seat, _ := p.Boot(side).Runners.At(at)
	return seat
}

// NotOnYet says that no steel was on the pair at an instant, and since when it is; nil
// where none came later.
func (p *Pair) NotOnYet(v View, at time.Time, reason, hint string) error {
	for _, side := range Sides() {
		if since, ok := p.Boot(side).Runners.after(at, func(seat Seat) bool { return seat.Runner != 0 }); ok {
			return notYet(v, since, reason+"; it is", hint)
		}
	}
	return nil
}

// SetAt is the set that is on the pair at an instant, whole or in part; zero where
// none is.
func (p *Pair) SetAt(at time.Time) Number {
	for _, side := range Sides() {
		if seat := p.SeatAt(side, at); seat.Runner != 0 && seat.Set != 0 {
			return seat.Set
		}
	}
	return 0
}

// Flags lists what the record is unsure of about this pair: two stations that each
// put steel in, or took out what was not there.
func (p *Pair) Flags() []Flag {
	flags := append(p.foreignFlags(p.Number), p.flagClashes(p.Number, p.clashes())...)
	if p.Twice == nil {
		return flags
	}
	return append(flags, p.conflict(p.Number, p.Event, *p.Twice, "this number was given to two players' pairs; put a new tag on one of them")...)
}

// clashes lists what was noted of the pair and cannot all be right.
func (p *Pair) clashes() []clash { return append(p.Left.clashes(Left), p.Right.clashes(Right)...) }

// Entered tells whether the pair was given to a player.
func (p *Pair) Entered() bool { return p.Event != Key{} }

// PiecesOn lists the holders and runners on a pair at an instant, left first.
func PiecesOn(pair *Pair, at time.Time) []Number {
	var pieces []Number
	for _, side := range Sides() {
		if holder := pair.HolderAt(side, at); holder != 0 {
			pieces = append(pieces, holder)
		}
		if seat := pair.SeatAt(side, at); seat.Runner != 0 {
			pieces = append(pieces, seat.Runner)
		}
	}
	return pieces
}

// LastPair is the pair that a loose holder was on last, and whether it was on one.
func LastPair(holder *Holder, at time.Time) (Number, bool) {
	boots := holder.Boots.Until(at)
	for i := len(boots) - 1; i >= 0; i-- {
		if pair := boots[i].Value.Pair; pair != 0 {
			return pair, true
		}
	}
	return 0, false
}
