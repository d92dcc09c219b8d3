package inventory

import "time"

// Set is the folded state of one set: a matched left and right runner.
type Set struct {
	Number Number `json:"number"`
	Marks
	Since  When              `json:"since"`
	Player Number            `json:"player"`
	Letter string            `json:"letter"`
	Left   Number            `json:"left"`
	Right  Number            `json:"right"`
	Broken *Key              `json:"broken,omitempty"` // gave a runner to another set
	Uses   Timeline[Use]     `json:"uses,omitempty"`
	Works  Timeline[SetWork] `json:"works,omitempty"`
}

// Use is a set going on a pair or coming off it.
type Use struct {
	Pair    Number `json:"pair,omitempty"` // zero: off
	Order   int    `json:"order,omitempty"`
	Reason  string `json:"reason,omitempty"`
	Retired bool   `json:"retired,omitempty"`
}

// SetWork is one work at the wheel on both or one of its runners.
type SetWork struct {
	Kind   string `json:"kind"`
	Hollow *Cut   `json:"hollow,omitempty"`
}

// Apply folds one event.
func (s *Set) Apply(e *Event) {
	switch b := e.Body.(type) {
	case *SetMade:
		s.make(e, b)
	case *PutIn:
		s.Uses.add(e, Use{Pair: b.Pair, Order: b.Order})
	case *TakenOut:
		s.Uses.add(e, Use{Reason: b.Reason, Retired: retiresAny(b)})
	case *Riveted:
		if b.Off {
			s.Uses.add(e, Use{})
		} else {
			s.Uses.add(e, Use{Pair: b.Pair})
		}
	case *Ground:
		s.Works.add(e, SetWork{b.Work, b.Hollow})
	default:
		s.Marks.apply(s.Number, e)
	}
}

func (s *Set) make(e *Event, b *SetMade) {
	if b.Set != s.Number {
		s.Broken = &e.Key
		return
	}
	s.Since, s.Player, s.Letter, s.Left, s.Right = e.Happened, b.Player, b.Letter, b.Left, b.Right
}

// retiresAny tells whether a runner is done with, which ends its set.
func retiresAny(b *TakenOut) bool {
	for _, removal := range b.Each {
		if removal.Retired {
			return true
		}
	}
	return false
}

// Runner is the set's runner of a side.
func (s *Set) Runner(side Side) Number {
	if side == Right {
		return s.Right
	}
	return s.Left
}

// StateAt is where the set is in its life at an instant.
func (s *Set) StateAt(at time.Time) State {
	use, used := s.Uses.At(at)
	switch {
	case used && use.Pair != 0:
		return On
	case s.Broken != nil || used && use.Retired:
		return Removed
	}
	return Ready
}

// Order is the how-manieth set of its player this one is, or 0 before its first use.
func (s *Set) Order(at time.Time) int {
	order := 0
	for _, use := range s.Uses.Until(at) {
		order = max(order, use.Value.Order)
	}
	return order
}

// GroundSince tells whether the set was ground since an instant.
func (s *Set) GroundSince(since, at time.Time) bool {
	works := s.Works.Until(at)
	return len(works) > 0 && !works[len(works)-1].When.Start.Before(since)
}

// Flags lists what the record is unsure of about this set.
func (s *Set) Flags() []Flag { return s.foreignFlags(s.Number) }
