package jig

import (
	"strings"

	"steeltally/inventory"
)

// Bearing is what the meaning of a line hangs on.
type Bearing int

// The bearings.
const (
	OnCard    Bearing = iota // on what came before: a key about the card, or a word that may be an answer
	OnMode                   // on nothing: it says what a scan does from now on
	OnNothing                // neither: who is left, which keys there are
	OnLast                   // on what was recorded last: it is taken back
	Anew                     // a number: what comes after it hangs on it
)

// BearingOf tells what a line hangs on.
func BearingOf(text string) Bearing {
	action, _ := actionOf(text)
	switch {
	case text == "u" || action == inventory.ActUndo:
		return OnLast
	case text == "g" || action == inventory.ActGrind || action == inventory.ActLook:
		return OnMode
	case text == "q" || text == "?" || action == inventory.ActDone:
		return OnNothing
	case action == 0 && (isScan(text) || text != "" && strings.Trim(text, "0123456789") == ""):
		return Anew
	}
	return OnCard
}

// WantsSet tells whether a line can make the next set that is scanned go on.
func WantsSet(text string) bool {
	action, _ := actionOf(text)
	c, isChange := readChange(text)
	return action == inventory.ActChange || isChange && c.letter == ""
}
