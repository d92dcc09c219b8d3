package inventory

import "fmt"

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
