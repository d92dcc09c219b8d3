package inventory

import "time"

// FamilyOf is the holder family of a piece's model; empty where nobody declared it.
func FamilyOf(v View, s *Stock) string { return fitOf(v, s).family }

// PiecesOn lists the holders and runners on a pair at an instant, left first.
func PiecesOn(pair *Pair, at time.Time) []Number {
	var pieces []Number
	for _, side := range Sides() {
		if holder := pair.HolderAt(side, at); holder != 0 {
			pieces = append(pieces, holder)
		}
		if seat := pair.SeatAt(side, at); seat.Runner != 0 {
			pieces = append(pieces, seat.Runner)
		}
	}
	return pieces
}

// Sides lists the sides in the order in which people name them.
func Sides() []Side { return []Side{Left, Right} }

// LastPair is the pair that a loose holder was on last, and whether it was on one.
func LastPair(holder *Holder, at time.Time) (Number, bool) {
	boots := holder.Boots.Until(at)
	for i := len(boots) - 1; i >= 0; i-- {
		if pair := boots[i].Value.Pair; pair != 0 {
			return pair, true
		}
	}
	return 0, false
}

// StateEntered tells whether a number is that of a thing in the record.
func StateEntered(v View, n Number) bool { return IsEntered(v.Entity(RefOf(n))) }
