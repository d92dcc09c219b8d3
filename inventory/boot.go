package inventory

import (
	"fmt"
	"time"

	"steeltally/geometry"
)

// Boot is one boot of a pair: the holder on it and the runner in that, through time.
type Boot struct {
	Holders Timeline[Number] `json:"holders,omitempty"` // zero: none on it
	Runners Timeline[Seat]   `json:"runners,omitempty"`
}

// Seat is what is in a holder from a time on.
type Seat struct {
	Runner Number `json:"runner,omitempty"` // zero: empty
	Holder Number `json:"holder,omitempty"`
	Set    Number `json:"set,omitempty"`
	Taken  Number `json:"taken,omitempty"` // the runner that came out, where one did
}

// rivet hangs a holder on or takes it off; a runner in it comes along.
func (b *Boot) rivet(e *Event, r *Riveted) {
	b.Holders.add(e, holderOn(r))
	switch {
	case r.Runner == 0:
	case r.Off:
		b.Runners.addWhere(e, Seat{Taken: r.Runner}, seatFollows)
	default:
		b.Runners.addWhere(e, Seat{Runner: r.Runner, Holder: r.Holder, Set: r.Set}, seatFollows)
	}
}

// holderOn is the holder that hangs on the boot after riveting.
func holderOn(r *Riveted) Number {
	if r.Off {
		return 0
	}
	return r.Holder
}

// clashes lists what was noted of the boot and cannot all be right.
func (b *Boot) clashes(side Side) []clash {
	clashes := b.Runners.clashes(func(before, after Seat) string { return seatClash(string(side), before, after) })
	clashes = append(clashes, b.Holders.clashes(func(before, after Number) string {
		if (before == 0) == (after == 0) {
			return "the " + string(side) + " holder was changed twice, and the two entries do not agree"
		}
		return ""
	})...)
	return append(clashes, b.unheld(side)...)
}

// seatFollows tells whether a seat can come after another: in only where it was empty,
// out only what was in.
func seatFollows(before, after Seat) bool {
	if after.Runner != 0 {
		return before.Runner == 0
	}
	return before.Runner == after.Taken
}

// seatClash tells why a seat can't come after another.
func seatClash(where string, before, after Seat) string {
	switch {
	case seatFollows(before, after):
		return ""
	case before == (Seat{}):
		return "the " + where + " steel was taken off, but nothing says that it was on"
	}
	return "the " + where + " steel was changed twice, and the two entries do not agree"
}

// unheld lists steel that went into another holder than was on the boot, and holders
// that came on or off with nothing said of the steel that was there.
func (b *Boot) unheld(side Side) []clash {
	var clashes []clash
	for _, seat := range b.Runners {
		if seat.Value.Runner != 0 && !hadAt(b.Holders, seat.Value.Holder, seat.When.Start) {
			clashes = append(clashes, clash{After: seat.Event, What: "the " + string(side) + " steel went into another holder than was on"})
		}
	}
	for _, change := range b.Holders {
		at := b.Runners.at(change.When.Start)
		if at < 0 || b.Runners[at].Value.Runner == 0 || b.Runners[at].When.Start.Equal(change.When.Start) {
			continue
		}
		clashes = append(clashes, clash{b.Runners[at].Event, change.Event, "the " + string(side) + " holder was changed, but nothing says what became of the steel"})
	}
	return clashes
}

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
