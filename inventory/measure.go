package inventory

import (
	"fmt"
	"strings"

	"steeltally/geometry"
)

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

func (b *Measured) line(Teller, *Event) string {
	parts := make([]string, len(b.Heights))
	for i, h := range b.Heights {
		parts[i] = OrDash(string(h.Side)) + " " + sayHeight(h)
	}
	return fmt.Sprintf("height (%s): %s", b.Reference, strings.Join(parts, ", "))
}

func sayHeight(h Height) string {
	if h.Middle == nil {
		return "unknown"
	}
	if h.Toe == nil || h.Heel == nil {
		return h.Middle.String()
	}
	return fmt.Sprintf("%.2f/%.2f/%.2f mm", float64(*h.Toe), float64(*h.Middle), float64(*h.Heel))
}

// A runner's height is within these; outside it is another unit or a slip.
const (
	leastHeight geometry.Millimetre = 5
	mostHeight  geometry.Millimetre = 30

	// HeightLimitsHint says what they are.
	HeightLimitsHint = "heights are in mm from 5 to 30; an inch needs its unit"
)

// CheckHeight refuses a height that no runner has.
func CheckHeight(what string, height geometry.Millimetre) error {
	if !(height >= leastHeight && height <= mostHeight) {
		return RefuseValue(fmt.Sprintf("%s %s can't be right", what, height), HeightLimitsHint)
	}
	return nil
}
