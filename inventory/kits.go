package inventory

import (
	"slices"
	"strings"
)

// Kits lists what travels that is not steel, with the least number of each.
type Kits struct {
	Kits []KitNoted `json:"kits,omitempty"`
}

// Apply folds one event.
func (k *Kits) Apply(e *Event) {
	b, ok := e.Body.(*KitNoted)
	if !ok {
		return
	}
	at := slices.IndexFunc(k.Kits, func(kit KitNoted) bool { return SameName(kit.Kit, b.Kit) })
	switch {
	case at < 0 && b.Least > 0:
		k.Kits = append(k.Kits, *b)
	case at >= 0 && b.Least > 0:
		k.Kits[at] = *b
	case at >= 0:
		k.Kits = slices.Delete(k.Kits, at, at+1)
	}
}

// KitList lists the kits in the order in which they were first named.
func KitList(v View) []KitNoted {
	if kits, ok := v.Entity(KitsRef).(*Kits); ok {
		return kits.Kits
	}
	return nil
}

// SameName tells whether two names are the same to a person.
func SameName(a, b string) bool {
	return strings.EqualFold(strings.Join(strings.Fields(a), " "), strings.Join(strings.Fields(b), " "))
}
