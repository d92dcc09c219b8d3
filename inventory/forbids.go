package inventory

import (
	"cmp"
	"slices"
)

// brokenReasons pairs each reason for taking steel off that forbids use with the mode of
// damage that it stands for.
func brokenReasons() map[string]Mode {
	return map[string]Mode{"broken": ModeBreak, "cracked": ModeCrack, "bent": ModeBend}
}

// ModeOfReason is the damage that a reason for taking steel off stands for.
func ModeOfReason(reason string) Mode { return cmp.Or(brokenReasons()[reason], Mode(reason)) }

// ModeThatForbids is the mode of damage that the tag of a holder has to carry where one
// forbids use, whatever else is wrong with it: with the book lost, nothing else would
// tell. It is empty where none does; one that is only suspected counts as a crack.
func ModeThatForbids(damages []Damaged) Mode {
	var mode Mode
	for _, damage := range damages {
		if !damage.Unsafe {
			continue
		}
		if damage.Mode.ForbidsUse() {
			return damage.Mode
		}
		mode = ModeCrack
	}
	return mode
}

// ReasonThatForbids is the reason that the tag of a runner has to carry where a damage
// forbids use, whatever else it came off for.
func ReasonThatForbids(damages []Damaged) string {
	mode := ModeThatForbids(damages)
	for reason, of := range brokenReasons() {
		if of == mode {
			return reason
		}
	}
	return string(mode)
}

// UnsafeBy lists what a body says that nobody may skate on, and why.
func UnsafeBy(body Body) []Damaged {
	switch b := body.(type) {
	case *Damaged:
		if b.Unsafe {
			return []Damaged{*b}
		}
	case *Emergency:
		return unsafeAll(b.Suspects, modeSuspect)
	case *Scrapped:
		return unsafeAll(b.Pieces, "scrapped")
	}
	return nil
}

func unsafeAll(pieces []Number, mode Mode) []Damaged {
	unsafe := make([]Damaged, len(pieces))
	for i, n := range pieces {
		unsafe[i] = Damaged{Piece: n, Mode: mode, Unsafe: true}
	}
	return unsafe
}

// Suspecting is the record in which some pieces may have broken, besides: who says so is not
// in it, and no look at them settles it.
func Suspecting(v View, more []Damaged) View {
	if len(more) == 0 {
		return v
	}
	suspecting := &suspecting{v, map[Number]Timeline[Suspicion]{}}
	for _, d := range more {
		of := Dated[Suspicion]{Value: Suspicion{d.Piece, d.Pair, d.Player}}
		suspecting.more[d.Piece] = append(suspecting.more[d.Piece], of)
	}
	return suspecting
}

type suspecting struct {
	View
	more map[Number]Timeline[Suspicion]
}

func (s *suspecting) Entity(ref Ref) Entity { return s.suspect(ref.Number(), s.View.Entity(ref)) }

func (s *suspecting) Each(kind Kind, yield func(Number, Entity) bool) {
	s.View.Each(kind, func(n Number, state Entity) bool { return yield(n, s.suspect(n, state)) })
}

// suspect is the state of a thing with what is suspected of it besides.
func (s *suspecting) suspect(n Number, state Entity) Entity {
	if len(s.more[n]) == 0 {
		return state
	}
	switch of := state.(type) {
	case *Runner:
		state = new(*of)
	case *Holder:
		state = new(*of)
	case *Pair:
		state = new(*of)
	case *Set:
		state = new(*of)
	}
	marks := marksIn(state)
	marks.Suspicions = slices.Concat(s.more[n], marks.Suspicions)
	return state
}
