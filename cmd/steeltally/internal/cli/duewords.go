package cli

import (
	"fmt"
	"strings"
	"time"

	"steeltally/cmd/steeltally/internal/desk"
)

// dueSections are the headings of the list, by standing.
var dueSections = [...]struct {
	standing desk.Standing
	heading  string
}{
	{desk.DoNotSkate, "DO NOT SKATE"},
	{desk.DueNow, "CHANGE NOW"},
	{desk.ComingUp, "COMING UP"},
	{desk.NeedsMeasure, "CAN'T SAY UNTIL MEASURED: passes were not counted"},
	{desk.NeedsMore, "CAN'T SAY"},
	{desk.SaidNo, "ASKED, SAID NO"},
}

// sayDue writes the list section by section, and what its ranges are worth.
func (a *app) sayDue(list desk.DueList, few bool, zone *time.Location) {
	others, lasting := soon(list, few)
	all := append(list.Players, others...)
	if len(all) == 0 {
		a.voice.say("no steel is on, or all of it will last")
		return
	}
	for _, section := range dueSections {
		a.saySection(section.standing, section.heading, all, zone)
	}
	if lasting > 0 {
		a.voice.say("%s on other pairs will last two weeks or more: --json has them\n", count(lasting, "set"))
	}
	a.sayDoubts(all, zone)
	if few {
		for _, due := range all {
			a.sayDueDetails(due, zone)
		}
	}
	a.sayWorth(list, zone)
}

// soonDays is how far ahead sets on other pairs than the first are shown.
const soonDays = 14

// soon picks the sets on other pairs that may be due before long, and counts the others.
func soon(list desk.DueList, all bool) (shown []desk.Due, lasting int) {
	limit := list.At.AddDate(0, 0, soonDays)
	for _, due := range list.Others {
		lasts := due.Standing == desk.ComingUp && due.Dates != nil && (due.Dates.Low.IsZero() || due.Dates.Low.After(limit))
		if lasts && !all {
			lasting++
			continue
		}
		shown = append(shown, due)
	}
	return shown, lasting
}

func (a *app) saySection(standing desk.Standing, heading string, all []desk.Due, zone *time.Location) {
	var rows [][]string
	for _, due := range all {
		if due.Standing == standing {
			rows = append(rows, dueRow(due, zone))
		}
	}
	if len(rows) == 0 {
		return
	}
	a.voice.say("%s", heading)
	if standing == desk.ComingUp {
		a.voice.table([]string{"no", "name", "set", "passes left", "due", "ready", "measure"}, rows)
	} else {
		a.voice.rows(rows)
	}
	a.voice.say("")
}

func dueRow(due desk.Due, zone *time.Location) []string {
	row := []string{sayCount(due.Sweater), shorten(due.Name), saySet(due)}
	switch due.Standing {
	case desk.DoNotSkate:
		damage := due.Unsafe[0]
		return append(row, fmt.Sprintf("%s: %s %s", damage.Piece.Short(), damage.Mode, damage.Zone), "take it off now")
	case desk.DueNow:
		return append(row, sayHeights(due), "ready: "+sayReady(due))
	case desk.NeedsMeasure:
		return append(row, sayLast(due, zone), due.ToDo)
	case desk.NeedsMore:
		return append(row, due.CannotSay, due.ToDo)
	case desk.SaidNo:
		no := due.Refusal
		return append(row, fmt.Sprintf("asked %s: %s", no.When.SayDay(zone), no.Value.Answer), "ask again "+no.Value.Review.SayDay(zone), sayHeights(due))
	}
	return append(row, sayRange(due.Passes.Low, due.Passes.Middle, due.Passes.High), sayDueDates(due), sayReady(due), sayMeasure(due))
}

// shorten keeps a long name from pushing the figures off the screen.
func shorten(name string) string {
	const most = 22
	if letters := []rune(name); len(letters) > most {
		return string(letters[:most-1]) + "…"
	}
	return name
}

func saySet(due desk.Due) string {
	if due.Role == "first" {
		return due.Letter
	}
	return due.Letter + " (" + due.Role + " pair)"
}

// sayHeights is where the runners stand against the change height.
func sayHeights(due desk.Due) string {
	line := ""
	for _, side := range due.Sides {
		if side.Height != 0 {
			line += fmt.Sprintf("%s about %.1f, ", side.Side, float64(side.Height))
		}
	}
	if due.Change == nil {
		return line
	}
	if due.Refusal != nil && due.Standing == desk.DueNow {
		line += "said no before, "
	}
	return line + "change at " + due.Change.String()
}

// sayLast is what the runners last measured: "last left 17.51, right 17.57 on 1 Jan 2026".
func sayLast(due desk.Due, zone *time.Location) string {
	line, on := "", ""
	for _, side := range due.Sides {
		if side.Last != nil {
			line += fmt.Sprintf("%s %.2f, ", side.Side, float64(side.Last.Height))
			on = side.Last.When.SayDay(zone)
		}
	}
	if line == "" {
		return "never measured"
	}
	return "last " + strings.TrimSuffix(line, ", ") + " on " + on
}

// sayDueDates is the first day due: "Thu 4 Dec (Wed 3 Dec to Sat 6 Dec)".
func sayDueDates(due desk.Due) string {
	if due.Dates == nil {
		return due.CannotSay
	}
	after := func(day time.Time) string {
		if day.IsZero() {
			return "after " + sayDay(due.Until)
		}
		return sayDay(day)
	}
	if due.Dates.Low.IsZero() {
		return "after " + sayDay(due.Until)
	}
	if due.Dates.Low.Equal(due.Dates.High) {
		return after(due.Dates.Middle)
	}
	return fmt.Sprintf("%s (%s to %s)", after(due.Dates.Middle), after(due.Dates.Low), after(due.Dates.High))
}

func sayDay(day time.Time) string { return day.Format("Mon 2 Jan") }

// sayReady names the sets that could go on: "B, C (not ground)".
func sayReady(due desk.Due) string {
	var sets []string
	for _, set := range due.Ready {
		word := set.Letter
		if !set.Ground {
			word += " (not ground)"
		}
		sets = append(sets, word)
	}
	if len(sets) == 0 {
		return "NONE"
	}
	return list(sets)
}

// sayMeasure is when the next height is worth its while.
func sayMeasure(due desk.Due) string {
	switch {
	case due.Measure.InPasses < 1:
		return "now"
	case due.Measure.On.IsZero():
		return fmt.Sprintf("in %.0f passes", due.Measure.InPasses)
	}
	return sayDay(due.Measure.On)
}

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
	a.voice.say("%s %s, set %s", sayCount(due.Sweater), due.Name, saySet(due))
	for _, side := range due.Sides {
		line := fmt.Sprintf("  %-6s", side.Side)
		if side.Last != nil {
			line += fmt.Sprintf("last height %.2f mm (%s), %s; ", float64(side.Last.Height), side.Reference, side.Last.When.SayDay(zone))
		} else {
			line += "no height yet; "
		}
		if side.Loss != 0 {
			line += fmt.Sprintf("about %.2f mm now, loses %.4f mm a pass, %.0f passes left", float64(side.Height), side.Loss, side.Left)
		}
		a.voice.say("%s", line)
	}
	a.voice.say("  rests on %s of this set and %s", count(due.Heights, "height"), count(due.Earlier, "earlier runner"))
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
