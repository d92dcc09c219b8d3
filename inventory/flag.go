package inventory

import (
	"fmt"
	"slices"
)

// Flag is something that the record is unsure of and that waits for a person.
type Flag struct {
	About Number `json:"about"`
	What  string `json:"what"`
	Keys  []Key  `json:"events"`
}

// foreignFlags flags the events that only a newer program can read.
func (m *Marks) foreignFlags(about Number) []Flag {
	return flagForeign(about, m.Foreign)
}

func flagForeign(about Number, keys []Key) []Flag {
	if len(keys) == 0 {
		return nil
	}
	what := fmt.Sprintf("%d entries were written by a newer program and are not wholly understood here", len(keys))
	return []Flag{{about, what, keys}}
}

// conflict flags two events that cannot both be right, unless a person said so. A is
// zero where one event can't be right by itself.
func (m *Marks) conflict(about Number, a, b Key, what string) []Flag {
	if m.settled(a, b) {
		return nil
	}
	if a == (Key{}) {
		return []Flag{{about, what, []Key{b}}}
	}
	return []Flag{{about, what, []Key{a, b}}}
}

// flagged is a state that knows what the record is unsure of about it.
type flagged interface{ Flags() []Flag }

// IsFlagged tells whether the record is unsure of something about a state.
func IsFlagged(state Entity) bool {
	unsure, ok := state.(flagged)
	return ok && len(unsure.Flags()) > 0
}

// flagIndex is a view that knows which things may be flagged, so that not all have to
// be looked at.
type flagIndex interface{ MayBeFlagged() []Ref }

// Flags lists what the record is unsure of about all pieces and players: pairs first,
// then what is on them, each kind in order of number.
func Flags(v View) []Flag {
	var flags []Flag
	take := func(_ Number, state Entity) bool {
		if unsure, ok := state.(flagged); ok {
			flags = append(flags, unsure.Flags()...)
		}
		return true
	}
	index, indexed := v.(flagIndex)
	if !indexed {
		for _, kind := range flagKinds() {
			v.Each(kind, take)
		}
		return flags
	}
	refs := index.MayBeFlagged()
	for _, kind := range flagKinds() {
		for _, ref := range slices.Sorted(slices.Values(refs)) {
			if n := ref.Number(); n.Kind() == kind {
				take(n, v.Entity(ref))
			}
		}
	}
	return flags
}

func flagKinds() []Kind {
	return []Kind{KindPair, KindHolder, KindRunner, KindSet, KindPlayer, KindTrunk, KindBin}
}
