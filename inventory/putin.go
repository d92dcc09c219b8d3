package inventory

import "fmt"

// Fit is one runner in one holder.
type Fit struct {
	Runner Number `json:"runner"`
	Holder Number `json:"holder,omitempty"`
}

// PutIn puts steel into a pair's holders: both runners of a set, or one.
type PutIn struct {
	Player Number `json:"player"`
	Pair   Number `json:"pair"`
	Set    Number `json:"set,omitempty"`
	Order  int    `json:"order,omitempty"` // the how-manieth set of its player
	Both[Fit]
}

// Kind is the word in the record.
func (*PutIn) Kind() string { return "in" }

// Touches names everything that hangs together.
func (b *PutIn) Touches() []Ref {
	refs := numbered(b.Player, b.Pair, b.Set)
	for _, fit := range b.Each {
		refs = append(refs, numbered(fit.Runner, fit.Holder)...)
	}
	return refs
}

func (b *PutIn) line(t Teller, _ *Event) string {
	return movedOf(t.set(b.Set), &b.Both) + " on " + t.pair(b.Pair)
}

// movedOf is what of a set went on or came off: all of it, or one side.
func movedOf[T any](set string, moved *Both[T]) string {
	switch {
	case moved.Left != nil && moved.Right == nil:
		return "left runner of " + set
	case moved.Right != nil && moved.Left == nil:
		return "right runner of " + set
	}
	return set
}

// Removal is one runner out of one holder.
type Removal struct {
	Runner  Number `json:"runner"`
	Holder  Number `json:"holder,omitempty"`
	Retired bool   `json:"retired,omitempty"` // done with: goes to the bin, tagged
}

// TakenOut takes steel out of a pair's holders.
type TakenOut struct {
	Player   Number `json:"player"`
	Pair     Number `json:"pair"`
	Set      Number `json:"set,omitempty"`
	Reason   Reason `json:"reason"`
	LastGame string `json:"last_game,omitempty"`
	Place    *Place `json:"place,omitempty"`
	Both[Removal]
}

// Kind is the word in the record.
func (*TakenOut) Kind() string { return "out" }

// Touches names everything that hangs together.
func (b *TakenOut) Touches() []Ref {
	refs := numbered(b.Player, b.Pair, b.Set)
	for _, removal := range b.Each {
		refs = append(refs, numbered(removal.Runner, removal.Holder)...)
	}
	return refs
}

func (b *TakenOut) line(t Teller, _ *Event) string {
	line := movedOf(t.set(b.Set), &b.Both) + " off " + t.pair(b.Pair) + ", " + string(b.Reason)
	for side, removal := range b.Each {
		if removal.Retired {
			line += fmt.Sprintf(", %s %s done with", side, removal.Runner.Short())
		}
	}
	return line
}

// Riveted puts a holder on a boot or takes it off, with the runner that is in it.
type Riveted struct {
	Holder Number `json:"holder"`
	Pair   Number `json:"pair"`
	Side   Side   `json:"side"`
	Off    bool   `json:"off,omitempty"`
	Runner Number `json:"runner,omitempty"`
	Set    Number `json:"set,omitempty"`
	Player Number `json:"player,omitempty"`
}

// Kind is the word in the record.
func (b *Riveted) Kind() string { return "rivet" }

// Touches names everything that hangs together.
func (b *Riveted) Touches() []Ref {
	return append(numbered(b.Holder, b.Pair, b.Runner, b.Set, b.Player), ShelfRef(KindHolder))
}

func (b *Riveted) line(Teller, *Event) string {
	if b.Off {
		return fmt.Sprintf("holder %s off the %s boot of %s", b.Holder.Short(), b.Side, b.Pair.Short())
	}
	return fmt.Sprintf("holder %s on the %s boot of %s", b.Holder.Short(), b.Side, b.Pair.Short())
}

// onBoot is the pair that a holder hangs on after riveting; none when it came off.
func onBoot(b *Riveted) Number {
	if b.Off {
		return 0
	}
	return b.Pair
}
