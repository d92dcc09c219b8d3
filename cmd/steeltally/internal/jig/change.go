package jig

import (
	"slices"
	"strings"

	"steeltally/cmd/steeltally/internal/desk"
	"steeltally/geometry"
	"steeltally/inventory"
)

// reasonLow is why steel mostly comes off.
const reasonLow = "low"

// changeKey reads "c", and what may stand behind it: why the old steel comes off, and its
// final heights left and right.
func changeKey(text string) (*desk.Off, bool) {
	fields := strings.Fields(text)
	if len(fields) == 0 || fields[0] != "c" {
		return nil, false
	}
	off := &desk.Off{Reason: reasonLow}
	fields = fields[1:]
	if len(fields) > 0 && slices.Contains(inventory.Reasons(), fields[0]) {
		off.Reason, fields = fields[0], fields[1:]
	}
	if len(fields) == 2 {
		left, leftErr := geometry.ParseHeight(fields[0])
		right, rightErr := geometry.ParseHeight(fields[1])
		off.Heights = inventory.Both[geometry.Millimetre]{Left: &left, Right: &right}
		return off, leftErr == nil && rightErr == nil
	}
	return off, len(fields) == 0
}

// change puts the set in the hand on in place of what is on; where no set was scanned
// yet, the next one that is scanned goes on.
func (j *Jig) change(off *desk.Off) error {
	set := j.State.About.Target.Set
	on, err := j.Desk.IsOn(set)
	if err != nil {
		return err
	}
	if set == 0 || on {
		j.State.Changing = true
		j.say("change: scan the set that goes on")
		return nil
	}
	j.State.Changing = false
	if off == nil {
		off = &desk.Off{Reason: reasonLow}
	}
	off.Who = j.State.About.Player.String()
	done, err := j.Desk.PutOn(*off, set.String())
	if err != nil {
		return err
	}
	j.reply.Removed = append(j.reply.Removed, done.Retired()...)
	player := j.State.About.Player
	j.State.About = About{player, player, desk.Target{Player: player}} // what is done next is done to what is on
	return j.done(done, nil)
}
