package cli

import (
	"time"

	"steeltally/cmd/steeltally/internal/desk"
)

// sayDue writes the list section by section, and what its ranges are worth.
func (a *app) sayDue(list desk.DueList, few bool, zone *time.Location) {
	others, lasting := soon(list, few)
	all := append(list.Players, others...)
	a.voice.notices(list.Notices)
	if said := list.Aside.String(); said != "" {
		a.voice.say("%s", said)
	}
	if len(all) == 0 && len(list.Unworked) == 0 {
		a.voice.say("no steel is on, or all of it will last")
		return
	}
	for _, section := range desk.DueSections(all, zone) {
		a.saySection(section)
	}
	a.sayUnworked(list.Unworked)
	if lasting > 0 {
		a.voice.say("%s on other pairs will last two weeks or more: --json has them\n", desk.SayCount(lasting, "set"))
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

func (a *app) saySection(section desk.DueSection) {
	var rows [][]string
	for _, row := range section.Rows {
		rows = append(rows, append([]string{sayCount(row.Due.Sweater), shorten(row.Due.Name), desk.SayDueSet(row.Due)}, row.Cells...))
	}
	a.voice.say("%s", section.Heading)
	if section.Columns != nil {
		a.voice.table(append([]string{"no", "name", "set"}, section.Columns...), rows)
	} else {
		a.voice.rows(rows)
	}
	a.voice.say("")
}

// shorten keeps a long name from pushing the figures off the screen.
func shorten(name string) string {
	const most = 22
	if letters := []rune(name); len(letters) > most {
		return string(letters[:most-1]) + "…"
	}
	return name
}

func sayDay(day time.Time) string { return day.Format("Mon 2 Jan") }
