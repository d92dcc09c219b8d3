package inventory

import (
	"fmt"
	"slices"
	"strings"
)

// oneOf checks a word against the words that the record takes, and lists them where
// it is none.
func oneOf(what, word string, known []string) error {
	if slices.Contains(known, word) {
		return nil
	}
	return fmt.Errorf("%s %q is not known; take one of %s", what, clip(word), strings.Join(known, ", "))
}

const (
	workGrind     = "grind"
	workNewHollow = "new-hollow"
	workProfile   = "profile"
	workNick      = "nick"
	workHone      = "hone"
)

// The words that the record takes. They are the trade's (common practice, no
// source); a word once in use stays readable for ever.
var (
	positions = []string{"goalkeeper", "defence", "forward"}
	roles     = []string{"first", "spare", "third", RoleKept}
	reasons   = []string{"low", "broken", "cracked", "bent", "chipped", "rotate", "hollow", "trial", "recall", "other"}
	works     = []string{workGrind, workNewHollow, workProfile, workNick, workHone}
	modes     = []string{"crack", "break", "bend", "chip", "loose-rivet", "loose-bolt", "rust", "wear", "other"}
	zones     = []string{"toe", "front-tower", "middle", "bridge", "rear-tower", "heel", "edge", "clamp", "unknown"}
	faces     = []string{"inner", "outer", "both", "unknown"}
	causes    = []string{"puck", "stick", "skate", "fall", "boards", "grinding", "fatigue", "fitting", "unknown"}
	found     = []string{"practice", "game", "grinding", "inspection", "change", "travel", "unknown"}
)

// Positions lists what a player can be.
func Positions() []string { return slices.Clone(positions) }

// Roles lists what a pair can be to its player.
func Roles() []string { return slices.Clone(roles) }

// Reasons lists why steel comes off.
func Reasons() []string { return slices.Clone(reasons) }

// Works lists the kinds of work at the wheel.
func Works() []string { return slices.Clone(works) }

// Modes lists how a piece can be damaged.
func Modes() []string { return slices.Clone(modes) }

// Zones lists where along the skate, toe to heel.
func Zones() []string { return slices.Clone(zones) }

// Faces lists which side of the piece, seen from the other foot.
func Faces() []string { return slices.Clone(faces) }

// Causes lists what did it.
func Causes() []string { return slices.Clone(causes) }

// FoundWhen lists the occasions at which damage is found.
func FoundWhen() []string { return slices.Clone(found) }

// retires tells whether steel that comes off for a reason is done with, or goes
// back to the shelf as a set to use again.
func retires(reason string) bool {
	switch reason {
	case "rotate", "hollow", "trial":
		return false
	}
	return true
}

// breaks tells whether a reason means that something broke, not that it wore out.
func breaks(reason string) bool {
	switch reason {
	case "broken", "cracked", "bent", "chipped":
		return true
	}
	return false
}

// unsafe tells whether a damage means that nobody skates on the piece.
func unsafe(mode string) bool {
	switch mode {
	case "crack", "break", "bend":
		return true
	}
	return false
}
