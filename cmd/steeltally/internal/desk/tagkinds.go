package desk

import (
	"fmt"
	"slices"
	"strings"
	"time"

	"steeltally/inventory"
	"steeltally/inventory/standing"
)

// templateFor is the template that was asked for, or the one that goes with the piece:
// what is done with or must not be used gets a tag tied on, a runner on the shelf has
// it on its sleeve.
func (j TagJob) templateFor(v inventory.View, n inventory.Number, at time.Time) string {
	if j.Template != "" {
		return j.Template
	}
	switch n.Kind() {
	case inventory.KindHolder:
		if holder, err := inventory.FindHolder(v, n); err == nil && (standing.HolderState(v, holder, at) == inventory.Removed || !standing.Skateable(v, at, n)) {
			return "tie-on"
		}
		return "holder-spot"
	case inventory.KindPair, inventory.KindSet, inventory.KindTrunk, inventory.KindBin, inventory.KindAction:
		return n.Kind().String()
	}
	if runner, err := inventory.FindRunner(v, n); err == nil && standing.RunnerState(v, runner, at) == inventory.Removed {
		return "tie-on"
	}
	return "sleeve-strip"
}

// kindsOf lists which kinds of piece one of the program's templates is for; a club's
// own may be for any.
func kindsOf(template string) []inventory.Kind {
	switch strings.TrimSuffix(template, "-folded") {
	case "tie-on":
		return []inventory.Kind{inventory.KindRunner, inventory.KindHolder}
	case "sleeve-strip", "sleeve-spot":
		return []inventory.Kind{inventory.KindRunner}
	case "holder-spot":
		return []inventory.Kind{inventory.KindHolder}
	case "set":
		return []inventory.Kind{inventory.KindSet}
	case "pair":
		return []inventory.Kind{inventory.KindPair}
	case "trunk":
		return []inventory.Kind{inventory.KindTrunk}
	case "bin":
		return []inventory.Kind{inventory.KindBin}
	case "action":
		return []inventory.Kind{inventory.KindAction}
	}
	return nil
}

// checkKind refuses a piece that a template is not for.
func checkKind(template string, kind inventory.Kind) error {
	kinds := kindsOf(template)
	if len(kinds) == 0 || slices.Contains(kinds, kind) {
		return nil
	}
	hint := "leave --template out to get the tag that goes with each piece"
	if kind == inventory.KindPlayer { // none goes with him
		hint = "name his pair, a set or a piece: steeltally set list PLAYER shows his sets"
	}
	return inventory.RefuseValue(fmt.Sprintf("template %s is for a %s, not for a %s", template, kinds[0], kind), hint)
}
