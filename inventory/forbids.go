package inventory

import "cmp"

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
