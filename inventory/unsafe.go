package inventory

import (
	"slices"
	"time"
)

// OpenDamages lists the damages that stand at an instant: those that nobody may skate
// on for good, the others until the piece was found sound, as what only may have broken.
func (m *Marks) OpenDamages(at time.Time) []Damaged {
	var open []Damaged
	for _, damage := range m.Damages.Until(at) {
		if damage.Value.Unsafe || !m.foundSoundSince(damage, at) {
			open = append(open, damage.Value)
		}
	}
	return append(open, m.suspected(at)...)
}

// Standing is the entry that says of the piece what another one says again: the same damage
// in the same place, which is there for good, or was noted no longer ago than a while and
// found mended by nobody since.
func (m *Marks) Standing(again *Damaged, at time.Time, while time.Duration) (Key, bool) {
	for _, damage := range m.Damages.Until(at) {
		open := at.Sub(damage.When.Start) <= while && !m.foundSoundSince(damage, at)
		if damage.Value.same(again) && (damage.Value.Unsafe || open) {
			return damage.Event, true
		}
	}
	return Key{}, false
}

func (m *Marks) foundSoundSince(damage Dated[Damaged], at time.Time) bool {
	return slices.ContainsFunc(m.Inspected.Until(at), func(look Dated[Look]) bool {
		return look.Value.Sound && IsSince(look.When, look.Event, damage.When, damage.Event)
	})
}

// IsSince tells whether something happened after something else. Where their times do
// not tell, it does only if one writer noted it later.
func IsSince(when When, event Key, since When, sinceEvent Key) bool {
	switch {
	case when.Unknown() || since.Unknown():
	case when.Start.After(since.Start) && !when.Start.Before(since.End):
		return true
	case when.End.Before(since.Start):
		return false
	}
	return event.Writer == sinceEvent.Writer && event.Sequence > sinceEvent.Sequence
}

// DoNotSkate tells whether a damage at an instant forbids use, or that something may
// have broken.
func (m *Marks) DoNotSkate(at time.Time) bool {
	return m.DamagedForGood(at) || len(m.suspected(at)) > 0
}

// Suspicion is a piece that may have broken, until somebody looked.
type Suspicion struct {
	Piece  Number `json:"piece"`
	Pair   Number `json:"pair,omitempty"`
	Player Number `json:"player,omitempty"`
}

// suspected lists suspicions that nobody has settled by an instant: by finding the piece
// sound, or by saying what broke.
func (m *Marks) suspected(at time.Time) []Damaged {
	var open []Damaged
	for _, s := range m.Suspicions.Until(at) {
		known := slices.ContainsFunc(m.Damages.Until(at), func(d Dated[Damaged]) bool { return IsSince(d.When, d.Event, s.When, s.Event) })
		if !known && !m.foundSoundSince(Dated[Damaged]{When: s.When, Event: s.Event}, at) {
			open = append(open, Damaged{Piece: s.Value.Piece, Pair: s.Value.Pair, Player: s.Value.Player, Mode: modeSuspect, Unsafe: true})
		}
	}
	return open
}

// LiftedSince is the last look since an instant that found sound what nobody was to skate
// on: until then it may have been broken.
func (m *Marks) LiftedSince(since, at time.Time) (Dated[Look], bool) {
	for _, look := range slices.Backward(m.Inspected.Until(at)) {
		if look.When.Start.Before(since) {
			break
		}
		lifts := slices.ContainsFunc(m.Suspicions.Until(at), func(s Dated[Suspicion]) bool { return IsSince(look.When, look.Event, s.When, s.Event) })
		if look.Value.Sound && lifts {
			return look, true
		}
	}
	return Dated[Look]{}, false
}

// DamagedForGood tells whether a damage that no look can close forbids use.
func (m *Marks) DamagedForGood(at time.Time) bool {
	return m.ScrappedAt(at) || slices.ContainsFunc(m.Damages.Until(at), func(d Dated[Damaged]) bool { return d.Value.Unsafe })
}

// brokenReasons pairs each reason for taking steel off that forbids use with the mode of
// damage that it stands for.
func brokenReasons() map[Reason]Mode {
	return map[Reason]Mode{ReasonBroken: ModeBreak, ReasonCracked: ModeCrack, ReasonBent: ModeBend}
}

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
func ReasonThatForbids(damages []Damaged) Reason {
	mode := ModeThatForbids(damages)
	for reason, of := range brokenReasons() {
		if of == mode {
			return reason
		}
	}
	return Reason(mode)
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
		return unsafeAll(b.Pieces, ModeScrapped)
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
