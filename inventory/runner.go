package inventory

import "time"

// Runner is the folded state of one runner.
type Runner struct {
	Number Number `json:"number"`
	Stock
	Marks
	Tagged
	Found    *OldInscription   `json:"found,omitempty"` // on an old piece with marker strokes only
	Moves    Timeline[Move]    `json:"moves,omitempty"`
	Works    Timeline[Work]    `json:"works,omitempty"`
	Readings Timeline[Reading] `json:"readings,omitempty"`
}

// MoveKind is what a move does with a runner.
type MoveKind string

// The moves.
const (
	Joined  MoveKind = "set" // matched into a set
	WentIn  MoveKind = "in"  // into a holder, or on or off a boot with it
	WentOut MoveKind = "out" // out of its holder
)

// Move is a runner being matched into a set, going into a holder or out of it.
type Move struct {
	Kind     MoveKind `json:"kind"`
	Holder   Number   `json:"holder,omitempty"`
	Pair     Number   `json:"pair,omitempty"` // zero: the holder is on no boot
	Player   Number   `json:"player,omitempty"`
	Set      Number   `json:"set,omitempty"`
	Side     Side     `json:"side,omitempty"`
	Order    int      `json:"order,omitempty"`
	Reason   Reason   `json:"reason,omitempty"`
	Retired  bool     `json:"retired,omitempty"`
	LastGame string   `json:"last_game,omitempty"`
	Along    bool     `json:"along,omitempty"` // it was in the holder that was riveted on or off
}

// Apply folds one event.
func (r *Runner) Apply(e *Event) {
	r.notice(e)
	switch b := e.Body.(type) {
	case *StockedIn:
		r.stockIn(e, b)
		if b.Place != nil {
			r.Places.add(e, *b.Place)
		}
	case *SetMade:
		r.join(e, b)
	case *PutIn:
		r.putIn(e, b)
	case *TakenOut:
		r.takeOut(e, b)
	case *Riveted:
		r.Moves.add(e, Move{Kind: WentIn, Holder: b.Holder, Pair: onBoot(b), Player: b.Player, Set: b.Set, Side: b.Side, Along: true})
	case *Ground:
		r.grind(e, b)
	case *Measured:
		r.measure(e, b)
	case *FoundOld:
		r.found(e, b)
	case *KnownFromTag:
		r.takeTag(e, b)
	default:
		r.Marks.apply(r.Number, e)
	}
}

func (r *Runner) join(e *Event, b *SetMade) {
	switch r.Number {
	case b.Left:
		r.Moves.add(e, Move{Kind: Joined, Set: b.Set, Player: b.Player, Side: Left})
	case b.Right:
		r.Moves.add(e, Move{Kind: Joined, Set: b.Set, Player: b.Player, Side: Right})
	}
}

func (r *Runner) putIn(e *Event, b *PutIn) {
	for side, fit := range b.Each {
		if fit.Runner == r.Number {
			r.Moves.add(e, Move{
				Kind: WentIn, Holder: fit.Holder, Pair: b.Pair, Player: b.Player,
				Set: b.Set, Side: side, Order: b.Order,
			})
		}
	}
}

func (r *Runner) takeOut(e *Event, b *TakenOut) {
	for side, removal := range b.Each {
		if removal.Runner == r.Number {
			r.Moves.add(e, Move{
				Kind: WentOut, Holder: removal.Holder, Pair: b.Pair, Player: b.Player, Set: b.Set, Side: side,
				Reason: b.Reason, Retired: removal.Retired, LastGame: b.LastGame,
			})
		}
	}
	if b.Place != nil {
		r.Places.add(e, *b.Place)
	}
}

// SideAt is the runner's side at an instant: it has none before it is first put in a
// set or a holder, unless the maker marked it.
func (r *Runner) SideAt(at time.Time) Side {
	if move, ok := r.Moves.At(at); ok {
		return move.Side
	}
	if tag := r.KnownTag(); tag != nil {
		return tag.Side
	}
	return r.Side
}

// SetAt is the set that the runner belongs or last belonged to at an instant, or zero.
func (r *Runner) SetAt(at time.Time) Number {
	move, _ := r.Moves.At(at)
	return move.Set
}
