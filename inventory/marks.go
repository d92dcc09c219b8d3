package inventory

import (
	"slices"
	"time"
)

// Marks is what any piece can carry: where it lies, what is wrong with it, when it
// was looked at, and what the record itself is unsure of.
type Marks struct {
	Places    Timeline[Place]   `json:"places,omitempty"`
	Damages   Timeline[Damaged] `json:"damages,omitempty"`
	Inspected Timeline[Look]    `json:"inspected,omitempty"`
	Foreign   []Key             `json:"foreign,omitempty"` // events that this version can't read, or not wholly
	Settled   []Key             `json:"settled,omitempty"` // events that a correction says are right
	Unmoved   []Key             `json:"unmoved,omitempty"` // corrections that took moves of steel back
	Prints    []Print           `json:"prints,omitempty"`  // tags that came out

	Custodies  Timeline[Custody]   `json:"custodies,omitempty"` // who has it; none: the club
	Scraps     Timeline[string]    `json:"scrapped,omitempty"`
	Suspicions Timeline[Suspicion] `json:"suspicions,omitempty"`
}

// Look is one inspection of a piece.
type Look struct {
	Sound bool   `json:"sound"`
	Note  string `json:"note,omitempty"`
	By    string `json:"by,omitempty"`
}

// notice notes an event of which a newer program said more than this version reads.
func (m *Marks) notice(e *Event) {
	if e.Newer() {
		m.Foreign = append(m.Foreign, e.Key)
	}
}

// apply folds what any piece can carry; it tells whether the event was of that sort.
func (m *Marks) apply(self Number, e *Event) bool {
	switch b := e.Body.(type) {
	case *Placed:
		m.Places.add(e, b.Place)
	case *Damaged:
		if b.Piece == self {
			m.Damages.add(e, *b)
		}
	case *Inspected:
		m.Inspected.add(e, Look{b.Sound, b.Note, e.Who})
	case *Printed:
		m.print(self, e, b)
	case *Correction:
		m.Settled = append(m.Settled, b.Keeps...)
		if b.Moves {
			m.Unmoved = append(m.Unmoved, e.Key)
		}
	case *Foreign:
		m.Foreign = append(m.Foreign, e.Key)
	default:
		return m.applyTravel(self, e)
	}
	return true
}

// Place is where the piece lies at an instant; the zero Place is unknown.
func (m *Marks) Place(at time.Time) Place {
	place, _ := m.Places.At(at)
	return place
}

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

func (m *Marks) settled(a, b Key) bool {
	return (a == Key{} || slices.Contains(m.Settled, a)) && slices.Contains(m.Settled, b)
}
