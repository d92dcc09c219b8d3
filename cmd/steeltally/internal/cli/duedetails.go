package cli

import (
	"fmt"
	"strings"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
)

// sayDoubts tells which heights do not fit the others.
func (a *app) sayDoubts(all []desk.Due, zone *time.Location) {
	var lines []string
	for _, due := range all {
		for _, side := range due.Sides {
			for _, doubt := range side.Doubts {
				what := "not used"
				if doubt.Again {
					what = "measure again"
				}
				lines = append(lines, fmt.Sprintf("%s %s, set %s %s: %.2f mm on %s does not fit: %s",
					sayCount(due.Sweater), due.Name, due.Letter, side.Side, float64(doubt.Height), doubt.When.SayDay(zone), what))
			}
			if len(side.Ends) > 0 && due.Standing == desk.ComingUp {
				lines = append(lines, fmt.Sprintf("%s %s, set %s %s: at the %s it is at or below the change height",
					sayCount(due.Sweater), due.Name, due.Letter, side.Side, strings.Join(side.Ends, " and the ")))
			}
		}
	}
	if len(lines) == 0 {
		return
	}
	a.voice.say("HEIGHTS TO LOOK AT")
	for _, line := range lines {
		a.voice.say("%s", line)
	}
	a.voice.say("")
}

// sayDueDetails tells what one forecast rests on.
func (a *app) sayDueDetails(due desk.Due, zone *time.Location) {
	a.voice.say("%s %s, set %s", sayCount(due.Sweater), due.Name, desk.SayDueSet(due))
	for _, side := range due.Sides {
		line := fmt.Sprintf("  %-6s", side.Side)
		if side.Last != nil {
			line += fmt.Sprintf("last height %.2f mm (%s), %s", float64(side.Last.Height), side.Reference, side.Last.When.SayDay(zone))
		} else {
			line += "no height yet"
		}
		if side.Loss != 0 {
			line += fmt.Sprintf("; about %.2f mm now, loses %.4f mm a pass, %.0f passes left", float64(*side.Now), side.Loss, side.Left)
		}
		a.voice.say("%s", line)
	}
	a.voice.say("  rests on %s of this set and %s", desk.SayCount(due.Heights, "height"), desk.SayCount(due.Earlier, "earlier runner"))
	if due.Sessions != nil {
		a.voice.say("  sessions until due: %s", sayRange(float64(due.Sessions.Low), float64(due.Sessions.Middle), float64(due.Sessions.High)))
	}
	if due.Measure.Since > 0 && due.Measure.InPasses >= 1 {
		a.voice.say("  %d passes since the last height: another one now would tell little", due.Measure.Since)
	}
	if due.CannotSay != "" {
		a.voice.say("  %s; %s", due.CannotSay, due.ToDo)
	}
	a.voice.say("")
}

// sayWorth tells how past ranges did.
func (a *app) sayWorth(list desk.DueList, zone *time.Location) {
	if !list.Until.IsZero() {
		a.voice.say("The schedule is known until %s.", sayDay(list.Until.In(zone)))
	}
	if list.Checked > 0 {
		a.voice.say("Of the last %d ranges, given at half of a runner's life, %d held; about %.0f should.",
			list.Checked, list.Held, 0.8*float64(list.Checked))
	}
}
