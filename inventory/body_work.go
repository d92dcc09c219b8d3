package inventory

import "steeltally/geometry"

// Passes are the passes that one runner got; nil is unknown, which is not zero.
type Passes struct {
	Runner Number `json:"runner"`
	Passes *int   `json:"passes"`
}

// Ground is work at the wheel on one pair or set.
type Ground struct {
	Player  Number `json:"player,omitempty"`
	Pair    Number `json:"pair,omitempty"`
	Set     Number `json:"set,omitempty"`
	Work    string `json:"work"`
	Hollow  *Cut   `json:"hollow,omitempty"`
	Machine string `json:"machine,omitempty"`
	By      string `json:"ground_by,omitempty"` // where another than who noted it
	More    bool   `json:"more,omitempty"`      // some more passes of the grind before
	Again   bool   `json:"again,omitempty"`     // one more grind, as a person says, although the last was just before
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

// Reference is what a height was measured on; the two are never mixed in one series.
type Reference string

// The references: a runner in the hand, or in its holder.
const (
	Loose  Reference = "loose"
	Fitted Reference = "fitted"
)

// Height is one measurement of one runner.
type Height struct {
	Runner Number               `json:"runner"`
	Side   Side                 `json:"side,omitempty"`
	Toe    *geometry.Millimetre `json:"toe_mm,omitempty"`
	Middle *geometry.Millimetre `json:"middle_mm"`
	Heel   *geometry.Millimetre `json:"heel_mm,omitempty"`
	AsRead bool                 `json:"as_read,omitempty"` // kept although it looks like a slip
}

// Measured is what the caliper said.
type Measured struct {
	Player    Number    `json:"player,omitempty"`
	Set       Number    `json:"set,omitempty"`
	Reference Reference `json:"reference"`
	Heights   []Height  `json:"heights"`
}

// Kind is the word in the record.
func (*Measured) Kind() string { return "measure" }

// Touches names the player, the set and the runners.
func (b *Measured) Touches() []Ref {
	refs := numbered(b.Player, b.Set)
	for _, height := range b.Heights {
		refs = append(refs, numbered(height.Runner)...)
	}
	return refs
}
