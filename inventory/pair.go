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

// Boot is one boot of a pair: the holder on it and the runner in that, through time.
type Boot struct {
	Holders Timeline[Number] `json:"holders,omitempty"` // zero: none on it
	Runners Timeline[Seat]   `json:"runners,omitempty"`
}

// Seat is what is in a boot's holder from a time on.
type Seat struct {
	Runner Number `json:"runner,omitempty"` // zero: empty
	Holder Number `json:"holder,omitempty"`
	Set    Number `json:"set,omitempty"`
	Taken  Number `json:"taken,omitempty"` // the runner that came out, where one did
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
		p.rivet(e, b)
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

// rivet hangs a holder on or takes it off; a runner in it comes along.
func (p *Pair) rivet(e *Event, b *Riveted) {
	boot := p.Boot(b.Side)
	if b.Off {
		boot.Holders.add(e, 0)
		if b.Runner != 0 {
			boot.Runners.add(e, Seat{Taken: b.Runner})
		}
		return
	}
	boot.Holders.add(e, b.Holder)
	if b.Runner != 0 {
		boot.Runners.add(e, Seat{Runner: b.Runner, Holder: b.Holder, Set: b.Set})
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
	flags := p.foreignFlags(p.Number)
	for _, side := range bothSides {
		seats := p.Boot(side).Runners
		for i := 1; i < len(seats); i++ {
			before, after := seats[i-1], seats[i]
			if !follows(before.Value, after.Value) {
				what := "the " + string(side) + " steel was changed twice, and the two entries do not agree"
				flags = append(flags, p.conflict(p.Number, before.Event, after.Event, what)...)
			}
		}
	}
	return flags
}

// follows tells whether a seat can come after another: in only where it was empty,
// out only what was in.
func follows(before, after Seat) bool {
	if after.Runner != 0 {
		return before.Runner == 0
	}
	return before.Runner == after.Taken
}
