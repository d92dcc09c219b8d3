package inventory

import "time"

// Pair is the folded state of one pair of boots with what hangs on them.
type Pair struct {
	Number Number `json:"number"`
	Marks
	Player Number           `json:"player"`
	Roles  Timeline[string] `json:"roles"`
	Left   Boot             `json:"left"`
	Right  Boot             `json:"right"`
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
	switch b := e.Body.(type) {
	case *PairNoted:
		p.Player = b.Player
		p.Roles.add(e, b.Role)
	case *Riveted:
		p.Boot(b.Side).rivet(e, b)
	case *PutIn:
		for side, fit := range b.Each {
			p.Boot(side).Runners.add(e, Seat{Runner: fit.Runner, Holder: fit.Holder, Set: b.Set})
		}
	case *TakenOut:
		for side, fit := range b.Each {
			p.Boot(side).Runners.add(e, Seat{Taken: fit.Runner})
		}
	default:
		p.Marks.apply(p.Number, e)
	}
}

// Role is what the pair is to its player at an instant.
func (p *Pair) Role(at time.Time) string {
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

// SetAt is the set that is on the pair at an instant, whole or in part; zero where
// none is.
func (p *Pair) SetAt(at time.Time) Number {
	for _, side := range bothSides {
		if seat := p.SeatAt(side, at); seat.Runner != 0 && seat.Set != 0 {
			return seat.Set
		}
	}
	return 0
}

// Flags lists what the record is unsure of about this pair: two stations that each
// put steel in, or took out what was not there.
func (p *Pair) Flags() []Flag {
	return append(p.foreignFlags(p.Number), p.flagClashes(p.Number, p.clashes())...)
}

// clashes lists what was noted of the pair and cannot all be right.
func (p *Pair) clashes() []clash { return append(p.Left.clashes(Left), p.Right.clashes(Right)...) }
