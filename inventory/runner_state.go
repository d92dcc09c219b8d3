package inventory

import (
	"slices"
	"time"
)

// State is a runner's or a set's place in its life.
type State string

// The states. A damage that forbids use is told beside them, see Marks.DoNotSkate.
const (
	InStock  State = "stock"     // never used, in no set
	Ready    State = "ready"     // in a set, not on
	On       State = "on"        // on a player's pair
	InHolder State = "in-holder" // in a holder that is on no boot
	Removed  State = "removed"   // done with, kept
)

// StateAt is where the runner is in its life at an instant.
func (r *Runner) StateAt(at time.Time) State {
	if r.ScrappedAt(at) {
		return Removed
	}
	moves := r.Moves.Until(at)
	if len(moves) == 0 {
		if _, used := r.earlier(at); used {
			return Removed
		}
		return InStock
	}
	switch held := lastHeld(moves); {
	case held.Kind == WentIn && held.Pair != 0:
		return On
	case held.Kind == WentIn:
		return InHolder
	}
	if moves[len(moves)-1].Value.Retired {
		return Removed
	}
	return Ready
}

// HeldAt is the runner's last move in or out of a holder until an instant.
func (r *Runner) HeldAt(at time.Time) Move { return lastHeld(r.Moves.Until(at)) }

// lastHeld is the last move in or out of a holder.
func lastHeld(moves Timeline[Move]) Move {
	for _, entry := range slices.Backward(moves) {
		if entry.Value.Kind != Joined {
			return entry.Value
		}
	}
	return Move{}
}

// Stint is one time that a runner spent in a holder.
type Stint struct {
	In       When
	Out      When // unknown while it is still in
	Open     bool
	Player   Number
	Pair     Number
	Set      Number
	Side     Side
	Order    int
	Reason   Reason
	Retired  bool
	LastGame string
}

// Stints are the times that a runner spent in a holder until an instant, in order.
func (r *Runner) Stints(at time.Time) []Stint {
	var stints []Stint
	if earlier, used := r.earlier(at); used {
		stints = append(stints, earlier)
	}
	return append(stints, stintsOf(r.Moves.Until(at))...)
}

func stintsOf(moves Timeline[Move]) []Stint {
	var stints []Stint
	for _, entry := range moves {
		move := entry.Value
		open := len(stints) > 0 && stints[len(stints)-1].Open
		switch {
		case move.Kind == WentIn && !open:
			stints = append(stints, Stint{In: entry.When, Open: true})
			fallthrough
		case move.Kind == WentIn:
			stints[len(stints)-1].follow(move)
		case move.Kind == WentOut && open:
			stints[len(stints)-1].end(entry.When, move)
		}
	}
	return stints
}

// follow takes over where the runner went; what a later move leaves open stays.
func (s *Stint) follow(move Move) {
	s.Side = move.Side
	if move.Pair != 0 {
		s.Pair, s.Player, s.Set = move.Pair, move.Player, move.Set
	}
	if move.Order != 0 {
		s.Order = move.Order
	}
}

func (s *Stint) end(when When, move Move) {
	s.Out, s.Open = when, false
	s.Reason, s.Retired, s.LastGame = move.Reason, move.Retired, move.LastGame
}

// Generation numbers the tags of a runner that is put back in use: the tag of its
// first removal is 1. A tag is current while the runner is out and the generations agree.
func (r *Runner) Generation(at time.Time) int {
	stints := len(r.Stints(at))
	if tag := r.KnownTag(); tag != nil && stints > 0 {
		return tag.Generation + stints - 1
	}
	return stints
}

// Flags lists what the record is unsure of about this runner.
func (r *Runner) Flags() []Flag {
	flags := append(r.foreignFlags(r.Number), r.Stock.flags(r.Number, &r.Marks)...)
	flags = append(flags, r.tagFlags()...)
	flags = append(flags, r.flagClashes(r.Number, r.clashes())...)
	flags = append(flags, r.slipFlags()...)
	return append(flags, r.workFlags()...)
}

// clashes lists moves that contradict each other: in twice, or out twice.
func (r *Runner) clashes() []clash {
	var clashes []clash
	var held Dated[Move]
	for _, entry := range r.Moves {
		if what := moveClash(held.Value, entry.Value); what != "" {
			clashes = append(clashes, clash{held.Event, entry.Event, what})
		}
		if entry.Value.Kind != Joined {
			held = entry
		}
	}
	return clashes
}

// moveClash tells why a move can't come after the last one in or out of a holder.
func moveClash(held, after Move) string {
	in := held.Kind == WentIn
	switch {
	case after.Kind == Joined && in:
		return "it was matched into a set while it was in a holder"
	case after.Kind == WentOut && held.Kind == WentOut:
		return "it was taken off twice"
	case after.Kind == WentOut && !in:
		return "it was taken off, but nothing says that it was on"
	case after.Kind == WentOut && (held.Pair != after.Pair || held.Holder != after.Holder):
		return "it was taken off another pair or holder than it was on"
	case after.Kind != WentIn:
		return ""
	case in != after.Along:
		return moveTwice(after)
	case in && held.Holder != after.Holder:
		return "it came along with a holder while it was in another"
	case in && (held.Pair == 0) == (after.Pair == 0):
		return "it came along with its holder twice"
	}
	return ""
}

func moveTwice(after Move) string {
	if after.Along {
		return "it came along with a holder, but nothing says that it was in it"
	}
	return "it was put on twice"
}
