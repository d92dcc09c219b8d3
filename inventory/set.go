package inventory

import (
	"fmt"
	"slices"
	"time"
)

// SetMade matches two runners for a player.
type SetMade struct {
	Set    Number   `json:"set"`
	Player Number   `json:"player"`
	Letter string   `json:"letter"`
	Left   Number   `json:"left"`
	Right  Number   `json:"right"`
	Breaks []Number `json:"breaks,omitempty"` // earlier sets that give up a runner
}

// Kind is the word in the record.
func (*SetMade) Kind() string { return "set" }

// Touches names the set, its player, its runners, the sets that it breaks and the shelf
// that the runners lay on.
func (b *SetMade) Touches() []Ref {
	refs := numbered(append([]Number{b.Set, b.Player, b.Left, b.Right}, b.Breaks...)...)
	return append(refs, CounterOf(b.Set), ShelfRef(KindRunner))
}

func (b *SetMade) line(Teller, *Event) string {
	return fmt.Sprintf("set %s made: left %s, right %s", b.Letter, b.Left.Short(), b.Right.Short())
}

// Set is the folded state of one set: a matched left and right runner.
type Set struct {
	Number Number `json:"number"`
	Marks
	Since  When              `json:"since"`
	Event  Key               `json:"event"`
	Twice  *Key              `json:"twice,omitempty"` // another set under the same number
	Player Number            `json:"player"`
	Letter string            `json:"letter"`
	Left   Number            `json:"left"`
	Right  Number            `json:"right"`
	Gave   Timeline[Number]  `json:"gave,omitempty"` // the sets that got a runner of it
	Uses   Timeline[Use]     `json:"uses,omitempty"`
	Works  Timeline[SetWork] `json:"works,omitempty"`
}

// Use is one runner of a set going on a pair or coming off it.
type Use struct {
	Side    Side   `json:"side"`
	Pair    Number `json:"pair,omitempty"` // zero: off
	Order   int    `json:"order,omitempty"`
	Reason  Reason `json:"reason,omitempty"`
	Retired bool   `json:"retired,omitempty"`
}

// SetWork is one work at the wheel on both or one of its runners.
type SetWork struct {
	Kind    WorkKind `json:"kind"`
	Hollow  *Cut     `json:"hollow,omitempty"`
	Machine string   `json:"machine,omitempty"`
	By      string   `json:"by,omitempty"` // who ground: who noted it, unless it was said
}

// Apply folds one event.
func (s *Set) Apply(e *Event) {
	s.notice(e)
	switch b := e.Body.(type) {
	case *SetMade:
		s.make(e, b)
	case *PutIn:
		for side := range b.Each {
			s.Uses.add(e, Use{Side: side, Pair: b.Pair, Order: b.Order})
		}
	case *TakenOut:
		for side, removal := range b.Each {
			s.Uses.add(e, Use{Side: side, Reason: b.Reason, Retired: removal.Retired})
		}
	case *Riveted:
		s.Uses.add(e, Use{Side: b.Side, Pair: onBoot(b)})
	case *Ground:
		s.Works.add(e, SetWork{b.Work, b.Hollow, b.Machine, b.groundBy(e)})
	default:
		s.Marks.apply(s.Number, e)
	}
}

func (s *Set) make(e *Event, b *SetMade) {
	if b.Set != s.Number {
		s.Gave.add(e, b.Set)
		return
	}
	switch {
	case s.Event == Key{}:
		s.Since, s.Event, s.Player, s.Letter = e.Happened, e.Key, b.Player, b.Letter
		s.Left, s.Right = b.Left, b.Right
	case s.Player == b.Player && (s.Left == b.Right && s.Right == b.Left || s.Left == b.Left && s.Right == b.Right):
		s.Left, s.Right = b.Left, b.Right // swapped, or said again
	default:
		s.Twice = &e.Key
	}
}

// Runner is the set's runner of a side.
func (s *Set) Runner(side Side) Number {
	if side == Right {
		return s.Right
	}
	return s.Left
}

// PairAt is the pair that the set's runner of a side is on at an instant, or zero.
func (s *Set) PairAt(side Side, at time.Time) Number { return s.useAt(side, at).Pair }

// useAt is the latest use of the runner of a side until an instant.
func (s *Set) useAt(side Side, at time.Time) Use {
	for _, use := range slices.Backward(s.Uses.Until(at)) {
		if use.Value.Side == side {
			return use.Value
		}
	}
	return Use{}
}

// BrokenAt tells whether the set had given a runner to another set at an instant.
func (s *Set) BrokenAt(at time.Time) bool { return len(s.Gave.Until(at)) > 0 }

// Order is the how-manieth set of its player this one is, or 0 before its first use.
func (s *Set) Order(at time.Time) int {
	order := 0
	for _, use := range s.Uses.Until(at) {
		order = max(order, use.Value.Order)
	}
	return order
}

// GroundSince tells whether the set was ground since an instant; honing is no grind.
func (s *Set) GroundSince(since, at time.Time) bool {
	return slices.ContainsFunc(s.Works.Until(at), func(work Dated[SetWork]) bool {
		return work.Value.Kind != WorkHone && !work.When.Start.Before(since)
	})
}

// Flags lists what the record is unsure of about this set.
func (s *Set) Flags() []Flag {
	flags := s.foreignFlags(s.Number)
	if s.Twice == nil {
		return flags
	}
	return append(flags, s.conflict(s.Number, s.Event, *s.Twice, "this number was given to two sets; match the runners of one anew")...)
}

// Entered tells whether the set was made.
func (s *Set) Entered() bool { return s.Event != Key{} }
