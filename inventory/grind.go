package inventory

import (
	"fmt"
	"strings"
)

// Passes are the passes that one runner got; nil is unknown, which is not zero.
type Passes struct {
	Runner Number `json:"runner"`
	Passes *int   `json:"passes"`
}

// Ground is work at the wheel on one pair or set.
type Ground struct {
	Player  Number   `json:"player,omitempty"`
	Pair    Number   `json:"pair,omitempty"`
	Set     Number   `json:"set,omitempty"`
	Work    WorkKind `json:"work"`
	Hollow  *Cut     `json:"hollow,omitempty"`
	Machine string   `json:"machine,omitempty"`
	By      string   `json:"ground_by,omitempty"` // where another than who noted it
	More    bool     `json:"more,omitempty"`      // some more passes of the grind before
	Again   bool     `json:"again,omitempty"`     // one more grind, as a person says, although the last was just before
	Both[Passes]
}

// Kind is the word in the record.
func (*Ground) Kind() string { return "grind" }

// Touches names the player, the pair, the set and its runners.
func (b *Ground) Touches() []Ref {
	refs := numbered(b.Player, b.Pair, b.Set)
	for _, passes := range b.Each {
		refs = append(refs, numbered(passes.Runner)...)
	}
	return refs
}

// groundBy is who stood at the wheel; empty where nobody said.
func (b *Ground) groundBy(e *Event) string {
	if b.By != "" {
		return b.By
	}
	return e.Who
}

func (b *Ground) line(t Teller, _ *Event) string {
	line := string(b.Work) + " on " + t.set(b.Set) + sayBoth(b)
	if b.More {
		line = "more " + line
	}
	if b.Hollow != nil {
		line += ", " + b.Hollow.String()
	}
	if b.By != "" {
		line += ", by " + b.By
	}
	return line
}

// sayBoth writes the passes of both sides; honing has none to count.
func sayBoth(b *Ground) string {
	var parts []string
	for side, passes := range b.Each {
		if b.Work == WorkHone && passes.Passes == nil {
			continue
		}
		parts = append(parts, string(side)+" "+sayPasses(passes.Passes))
	}
	if len(parts) == 0 {
		return ""
	}
	return ": " + strings.Join(parts, ", ")
}

func sayPasses(passes *int) string {
	if passes == nil {
		return "unknown"
	}
	return fmt.Sprint(*passes)
}
