package desk

import (
	"slices"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/book"
	"steeltally/inventory/standing"
)

// UnsafeAside is what nobody may skate on by an entry that is set aside: the record does
// not count it.
type UnsafeAside struct {
	Entry   string              `json:"entry"`
	Damages []inventory.Damaged `json:"damages"`
}

// UnsafeAsides are those about something, or all.
type UnsafeAsides struct {
	Entries []UnsafeAside
	unread  error // what is set aside can't be read, and may say more
}

// unsafeAsides finds all of them. As a rule nothing is set aside, which costs a look for
// one file.
func (d *Desk) unsafeAsides() UnsafeAsides {
	asides, err := d.book.Asides()
	return UnsafeAsides{unsafeAmong(asides), err}
}

// UnsafeAsides finds those about some players or pieces, or all where none is named.
func (d *Desk) UnsafeAsides(about ...inventory.Number) (some UnsafeAsides, err error) {
	all := d.unsafeAsides()
	if len(all.Entries) == 0 || len(about) == 0 {
		return all, nil
	}
	return some, d.ask(func(v inventory.View, at time.Time) error {
		some = all.about(v, at, about...)
		return nil
	})
}

// unsafeFor warns who does something with a piece, or for a player, of what is said of them
// there. What can't be read says so where it is looked at, not at every act.
func (d *Desk) unsafeFor(events []inventory.Event) []inventory.Notice {
	var about []inventory.Number
	for i := range events {
		about = append(about, inventory.NumbersOf(&events[i])...)
	}
	if len(about) == 0 {
		return nil
	}
	some, err := d.UnsafeAsides(about...)
	if err != nil || len(some.Entries) == 0 {
		return nil
	}
	return []inventory.Notice{{Text: some.Say(), Hint: "steeltally setaside"}}
}

func unsafeAmong(asides []book.Aside) []UnsafeAside {
	var list []UnsafeAside
	for i := range asides {
		e := &asides[i].Event
		if damages := inventory.UnsafeBy(e.Body); len(damages) > 0 {
			list = append(list, UnsafeAside{e.Key.String(), damages})
		}
	}
	return list
}

// damages are all that they say.
func (u UnsafeAsides) damages() []inventory.Damaged {
	var all []inventory.Damaged
	for _, one := range u.Entries {
		all = append(all, one.Damages...)
	}
	return all
}

// about keeps what is said of some players or pieces, and of what makes these up or hangs
// on them.
func (u UnsafeAsides) about(v inventory.View, at time.Time, some ...inventory.Number) UnsafeAsides {
	kept := UnsafeAsides{unread: u.unread}
	for _, one := range u.Entries {
		var damages []inventory.Damaged
		for _, damage := range one.Damages {
			if slices.ContainsFunc(some, func(n inventory.Number) bool { return isOn(v, damage, n, at) }) {
				damages = append(damages, damage)
			}
		}
		if len(damages) > 0 {
			kept.Entries = append(kept.Entries, UnsafeAside{one.Entry, damages})
		}
	}
	return kept
}

// isOn tells whether a damage is on a thing, on what belongs to it, or on what a player uses.
func isOn(v inventory.View, damage inventory.Damaged, whole inventory.Number, at time.Time) bool {
	switch {
	case whole.Kind() != inventory.KindPlayer:
		return slices.Contains(standing.Parts(v, whole, at), damage.Piece)
	case v.Entity(inventory.RefOf(damage.Piece)) == nil:
		return damage.Player == whole // as the entry says, where the record does not know the piece
	}
	return userOf(v, damage.Piece, at) == whole
}

// userOf is the player who skates on a piece, or will; zero where nobody does, also of a
// runner that came off for good.
func userOf(v inventory.View, piece inventory.Number, at time.Time) inventory.Number {
	switch thing := v.Entity(inventory.RefOf(piece)).(type) {
	case *inventory.Runner:
		if set := thing.SetAt(at); set != 0 && standing.RunnerState(v, thing, at) != inventory.Removed {
			return userOf(v, set, at)
		}
	case *inventory.Holder:
		if pair := thing.BootAt(at).Pair; pair != 0 {
			return userOf(v, pair, at)
		}
	case *inventory.Set:
		return thing.Player
	case *inventory.Pair:
		return thing.Player
	}
	return 0
}

// String is what Say says, and how to look at them.
func (u UnsafeAsides) String() string {
	said := u.Say()
	if said != "" {
		said += ": steeltally setaside"
	}
	return said
}

// Say says them where a player or a piece is looked at; it is empty where there are none.
func (u UnsafeAsides) Say() string {
	var words []string
	for _, one := range u.Entries {
		words = append(words, sayUnsafe(one.Damages))
	}
	switch {
	case u.unread != nil:
		return "what is set aside can't be read, and may say DO NOT SKATE (" + u.unread.Error() + ")"
	case len(words) > 0:
		return "what is set aside says DO NOT SKATE (" + strings.Join(words, "; ") + ")"
	}
	return ""
}

func sayUnsafe(damages []inventory.Damaged) string {
	words := make([]string, len(damages))
	for i, damage := range damages {
		words[i] = damage.Piece.Short() + " " + damage.Where()
	}
	return strings.Join(words, ", ")
}

// String says one of them where everything that waits is listed.
func (u UnsafeAside) String() string {
	return "DO NOT SKATE: " + sayUnsafe(u.Damages) + ", by an entry that is set aside and not in the record"
}

func (u UnsafeAside) hint() string {
	return "look at it before anybody skates on it; steeltally setaside take " + u.Entry + " enters it"
}

// notices warn of each.
func (u UnsafeAsides) notices() []inventory.Notice {
	var notices []inventory.Notice
	for _, one := range u.Entries {
		notices = append(notices, inventory.Notice{Text: one.String(), Hint: one.hint()})
	}
	return notices
}
