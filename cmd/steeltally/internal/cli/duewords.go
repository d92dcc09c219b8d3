package cli

import (
	"fmt"
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
