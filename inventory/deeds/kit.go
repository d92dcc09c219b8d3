package deeds

import (
	"slices"

	"steeltally/inventory"
)

// NoteKit says what travels that is not steel, and how many of it at least.
type NoteKit inventory.KitNoted

const mostKits = 100_000

// Decide records it; nothing at least takes it off the list.
func (d NoteKit) Decide(v inventory.View, m Moment) (Outcome, error) {
	var out Outcome
	if err := checkName("the kit's name", d.Kit); err != nil {
		return out, err
	}
	if d.Least < 0 || d.Least > mostKits {
		return out, inventory.RefuseValue("", "at least %d: 0 to %d are possible", d.Least, mostKits)
	}
	known := slices.ContainsFunc(inventory.KitList(v), func(k inventory.KitNoted) bool { return inventory.SameName(k.Kit, d.Kit) })
	if d.Least == 0 && !known {
		return out, inventory.Refuse("steeltally trip kits lists them", "no kit is called %s", inventory.Clip(d.Kit))
	}
	body := inventory.KitNoted(d)
	out.record(m.Happened, &body)
	return out, nil
}
