package inventory

import "fmt"

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
