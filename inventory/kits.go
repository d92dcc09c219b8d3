package inventory

import (
	"fmt"
	"slices"
	"strings"
)

// KitNoted says what travels that is not steel, and how many of it at least: rivets of
// a length, wheels of a hollow, guards.
type KitNoted struct {
	Kit   string `json:"kit"`
	Least int    `json:"least"` // 0: it travels no more
}

// Kind is the word in the record.
func (*KitNoted) Kind() string { return "kit" }

// Touches names the list of kits.
func (*KitNoted) Touches() []Ref { return []Ref{KitsRef} }

func (b *KitNoted) line(Teller, *Event) string {
	return fmt.Sprintf("kit %s: at least %d", clipName(b.Kit), b.Least)
}

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
