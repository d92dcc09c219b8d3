package inventory

import (
	"fmt"
	"strings"
)

func printed(b *Printed) string {
	line := fmt.Sprintf("tag %s printed", b.Template)
	if len(b.Tags) > 1 {
		line = fmt.Sprintf("%d tags %s printed", len(b.Tags), b.Template)
	}
	if b.Printer != "" {
		line += " on " + b.Printer
	}
	if b.Job != "" {
		line += ", job " + b.Job
	}
	return line
}

func (t Teller) foundOld(b *FoundOld) string {
	parts := append([]string{"found, an old runner marked " + Quoted(b.Inscription)}, t.owner(b.Player, b.Sweater, b.Side)...)
	if strokes := SayStrokes(b.Inscription); strokes != "" {
		parts = append(parts, strokes)
	}
	return strings.Join(parts, ", ")
}

func (t Teller) fromTag(b *KnownFromTag) string {
	parts := append([]string{fmt.Sprintf("removed, known from its tag (generation %d)", b.Generation)}, t.owner(b.Player, b.Sweater, b.Side)...)
	parts = append(parts, fmt.Sprintf("%d grinds, %d passes", b.Grinds, b.Passes))
	if b.Unknown {
		parts[len(parts)-1] += " and others nobody counted"
	}
	if b.Final != nil {
		parts = append(parts, b.Final.String()+" high")
	}
	if b.Reason != "" {
		parts = append(parts, b.Reason)
	}
	return strings.Join(parts, ", ")
}

// owner says whose a piece was, as far as that is known.
func (t Teller) owner(player Number, sweater int, side Side) []string {
	var parts []string
	if name := t.player(player); player != 0 && name != "" {
		parts = append(parts, name)
	}
	if sweater != 0 {
		parts = append(parts, fmt.Sprintf("sweater %d", sweater))
	}
	if side != "" {
		parts = append(parts, string(side))
	}
	return parts
}
