package standing

import (
	"slices"
	"time"

	"steeltally/inventory"
)

// Safety is whether a piece may be skated on.
type Safety string

// The safeties. Nobody skates on what is suspect, either.
const (
	Sound      Safety = "sound"
	Suspect    Safety = "suspect"      // may have broken, and nobody has looked yet
	DoNotSkate Safety = "do-not-skate" // broke, or was thrown away
)

// SafetyOf is the worst of a piece and of what makes it up or hangs on it.
func SafetyOf(v inventory.View, n inventory.Number, at time.Time) Safety {
	worst := Sound
	for _, part := range Parts(v, n, at) {
		switch own := OwnSafety(v, part, at); own {
		case DoNotSkate:
			return own
		case Suspect:
			worst = own
		}
	}
	return worst
}

// OwnSafety is that of a piece alone: of a pair the boots, of a set nothing.
func OwnSafety(v inventory.View, n inventory.Number, at time.Time) Safety {
	switch marks := inventory.MarksOf(v, n); {
	case marks.DamagedForGood(at):
		return DoNotSkate
	case marks.DoNotSkate(at):
		return Suspect
	}
	return Sound
}

// UnsafePart is the first of a piece and its parts that nobody may skate on; zero is none.
func UnsafePart(v inventory.View, n inventory.Number, at time.Time) inventory.Number {
	for _, part := range Parts(v, n, at) {
		if OwnSafety(v, part, at) != Sound {
			return part
		}
	}
	return 0
}

// Skateable tells whether somebody may skate on all of some pieces.
func Skateable(v inventory.View, at time.Time, pieces ...inventory.Number) bool {
	return !slices.ContainsFunc(pieces, func(n inventory.Number) bool { return SafetyOf(v, n, at) != Sound })
}

// Open lists what is wrong with a piece and with what makes it up or hangs on it: what
// forbids use, and what is to be mended.
func Open(v inventory.View, n inventory.Number, at time.Time) []inventory.Damaged {
	var open []inventory.Damaged
	for _, part := range Parts(v, n, at) {
		marks := inventory.MarksOf(v, part)
		open = append(open, marks.OpenDamages(at)...)
		if marks.ScrappedAt(at) {
			open = append(open, inventory.Damaged{Piece: part, Mode: inventory.ModeScrapped, Unsafe: true})
		}
	}
	return open
}

// Forbidding lists what of it forbids use: what broke before what nobody has looked at yet.
func Forbidding(v inventory.View, n inventory.Number, at time.Time) []inventory.Damaged {
	list := slices.DeleteFunc(Open(v, n, at), func(d inventory.Damaged) bool { return !d.Unsafe })
	broke := func(d inventory.Damaged) bool { return OwnSafety(v, d.Piece, at) == DoNotSkate }
	slices.SortStableFunc(list, func(a, b inventory.Damaged) int { return firstTrue(broke(a), broke(b)) })
	return list
}

// Parts is a piece with what makes it up or hangs on it: a set's runners, a pair's holders
// and steel, what lies in a trunk or bin.
func Parts(v inventory.View, n inventory.Number, at time.Time) []inventory.Number {
	parts := []inventory.Number{n}
	switch thing := v.Entity(inventory.RefOf(n)).(type) {
	case *inventory.Set:
		parts = append(parts, thing.Left, thing.Right)
	case *inventory.Pair:
		parts = append(parts, inventory.PiecesOn(thing, at)...)
		for _, side := range inventory.Sides() {
			if set := thing.SeatAt(side, at).Set; set != 0 && !slices.Contains(parts, set) {
				parts = append(parts, set)
			}
		}
	case *inventory.Container:
		parts = append(parts, Inside(v, thing.Name, at)...)
	}
	return parts
}
