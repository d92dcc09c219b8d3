package inventory

import "slices"

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
